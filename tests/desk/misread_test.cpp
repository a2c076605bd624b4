// What was misread stays misread, whatever is changed afterwards.
#include <catch2/catch.hpp>
#include <map>

#include "desk/change.h"
#include "desk/confession.h"
#include "desk/open.h"
#include "desk/ready.h"
#include "images/misreads.h"
#include "images/random_image.h"
#include "layout/library.h"
#include "make/compose.h"
#include "make/seal.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

Opened opened(const Image& image, const Layout& layout,
              const std::optional<Image>& again = std::nullopt) {
  ReadingOrder order;
  order.layout = layout;
  if (again) order.again.push_back({"", *again});
  return open_dump({image, Form::raw, {}, {}}, "dump.bin", order, Shelf());
}

constexpr DateTime some_day{2031, 5, 14, 9, 30, 0};

/// A field of the layout with a value that it does not have in this image.
std::optional<Setting> some_change(const Image& image, const Layout& layout) {
  for (const Field& field : layout.fields) {
    if (field.read_only || !field.when.empty() || field.meaning != Meaning::choice) continue;
    for (const Choice& choice : field.choices)
      if (read_value(field, image).value != Value(choice.name))
        return Setting{field.id, choice.name};
  }
  return std::nullopt;
}

/// The dump as each writer would leave it.
std::map<std::string, Image> as_written(const Opened& dump) {
  const Layout& layout = *dump.layout;
  const Image& image = dump.dump.image;
  std::map<std::string, Image> all{{"as it is", image}, {"sealed", seal(image, layout)}};
  all.emplace("clock set",
              amended(image, layout, dump.reading, dump.provenance, {{}, {}, {}, some_day}).image);
  if (const auto setting = some_change(image, layout))
    all.emplace(
        "field set",
        amended(image, layout, dump.reading, dump.provenance, {{}, {}, {*setting}, {}}).image);
  int number = 0;
  for (const Suspect& suspect : open_suspects(image, layout, dump.reading, dump.provenance))
    all.emplace("repaired " + std::to_string(number++), repaired(image, suspect));
  return all;
}

struct Count {
  std::size_t dumps = 0, written = 0, proven_all_the_same = 0;
};

/// Counts what may be written, of the faults of one image.
void try_every_misread(const Image& image, const Layout& layout, Count& count) {
  for (const Misread& misread : every_misread(image)) {
    const Opened dump = opened(misread.image, layout);
    ++count.dumps;
    // The settings came through: their check holds on the bytes as they were read.
    if (dump.examination.standing.settings == Standing::Settings::proven &&
        !is_misread(dump.reading)) {
      ++count.proven_all_the_same;
      continue;
    }
    for (const auto& [writer, written] : as_written(dump)) {
      INFO(layout.id << ": " << misread.name << ", " << writer);
      const bool ready = readiness(written, layout, dump.reading, {}).is_ready();
      CHECK_FALSE(ready);
      if (ready) ++count.written;
    }
  }
}

}  // namespace

TEST_CASE("no fault of the reading can be written without insisting, whatever was changed",
          "[long]") {
  Count count;
  Dice dice(7);
  for (const Layout& layout : all_layouts())
    for (int round = 0; round < 4; ++round)
      try_every_misread(random_image(layout, dice), layout, count);
  CHECK(count.written == 0);
  CHECK(count.dumps > 3000);
  // A bit that was 0 in every covered byte anyway: nothing was lost.
  CHECK(count.proven_all_the_same < count.dumps / 100);
}

TEST_CASE("the same holds for machines of which little is known") {
  Count count;
  for (const Layout& layout : all_layouts()) {
    Description description;
    description.clock = some_day;
    try_every_misread(compose(description, layout), layout, count);
  }
  CHECK(count.written == 0);
  CHECK(count.dumps > 800);
}

TEST_CASE("two dumps that differ are a fault of the reading, and no change makes up for it") {
  for (const Layout& layout : all_layouts()) {
    Dice dice(11);
    const Image first = random_image(layout, dice);
    const Image second = with_bytes(first, {{0x15, static_cast<std::uint8_t>(first[0x15] ^ 0x10)}});
    const Opened dump = opened(first, layout, second);
    CHECK(dump.examination.standing.dump == Standing::Dump::misread);
    for (const auto& [writer, written] : as_written(dump)) {
      INFO(layout.id << ": " << writer);
      CHECK_FALSE(readiness(written, layout, dump.reading, {}).is_ready());
    }
  }
}

TEST_CASE("a misread dump gets no advice but to read again") {
  for (const Misread& misread : every_misread(at_64_image())) {
    INFO(misread.name);
    const Opened dump = opened(misread.image, built_in_layout("at"));
    if (!is_misread(dump.reading)) continue;
    CHECK(open_suspects(misread.image, *dump.layout, dump.reading, dump.provenance).empty());
    for (const Finding& finding : dump.examination.findings)
      for (const AdviceStep& step : finding.advice.steps())
        if (step.act)
          CHECK((step.act->kind == Act::Kind::take_back || step.act->kind == Act::Kind::cautions));
  }
}

TEST_CASE("setting the clock of a dump of ones does not make it a chip with its RAM cleared") {
  const Image ones(std::vector<std::uint8_t>(64, 0xFF));
  const Opened dump = opened(ones, built_in_layout("at"));
  const Image dated = with_time(ones, *dump.layout, some_day);
  const Readiness ready = readiness(dated, *dump.layout, dump.reading, {});
  CHECK(ready.misread);
  for (const Finding& finding : ready.examination.findings)
    CHECK(finding.kind != FindingKind::ram_cleared);
}

TEST_CASE("a file that confesses is misread as long as it says so") {
  Dump dump{at_64_image(), Form::json, "at", {}, {}, {{"Data bit 5 is 0 in every byte."}, {}}};
  const Opened file = open_dump(dump, "dump.json", {}, Shelf());
  CHECK(file.examination.standing.dump == Standing::Dump::misread);
  CHECK(confession({}, file.reading).misread.size() == 1);
  CHECK_FALSE(readiness(seal(dump.image, *file.layout), *file.layout, file.reading, {}).is_ready());
  CHECK_THROWS(need_ready(readiness(dump.image, *file.layout, file.reading, {}), "dump.json"));
}
