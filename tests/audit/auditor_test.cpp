#include "audit/auditor.h"

#include <catch2/catch.hpp>
#include <memory>
#include <string>
#include <vector>

#include "images/injected_faults.h"
#include "images/random_image.h"
#include "judge/made_up.h"
#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

/// The quick way beside the plain one, over the same rules.
class Court {
 public:
  explicit Court(std::shared_ptr<const Layout> named = nullptr) : rules_{{}, std::move(named)} {}
  explicit Court(const std::vector<Layout>& own) : rules_{own, nullptr} {}

  void hold(const Image& image) {
    const Verdict quick = auditor_.judge(image), plain = judge_plainly(image, rules_);
    CHECK((quick.layout ? quick.layout->id : "") == (plain.layout ? plain.layout->id : ""));
    CHECK(ids_of(quick.findings) == ids_of(plain.findings));
    CHECK(quick.looks == plain.looks);
  }
  Verdict judge(const Image& image) { return auditor_.judge(image); }
  std::vector<std::string_view> ids(const Verdict& verdict) const {
    return ids_of(verdict.findings);
  }

 private:
  AuditRules rules_;
  Auditor auditor_{rules_};
};

Image with_damage(Image image, Dice& dice) {
  for (unsigned left = 1 + roll(dice, 3); left > 0; --left) {
    const auto at = static_cast<Address>(roll(dice, static_cast<unsigned>(image.size())));
    image.set(at, static_cast<std::uint8_t>(roll(dice, 256)));
  }
  return image;
}

std::shared_ptr<const Layout> named(const char* id) {
  return std::make_shared<const Layout>(built_in_layout(id));
}

using Ids = std::vector<std::string_view>;
using Bytes = std::vector<std::uint8_t>;

}  // namespace

TEST_CASE("an audit finds the sound machine sound, and says what verify says of it") {
  Court court;
  const Verdict verdict = court.judge(at_64_image());
  CHECK(verdict.is_sound());
  CHECK(verdict.layout->id == "at");
}

TEST_CASE("an audit names each kind of finding once, however often it is met") {
  Court court(named("at"));
  // 3 in the alarm's hours tens, a flat cell, and a check byte one too high.
  const Image image =
      with_bytes(at_64_image(), {{0x0D, 0x00}, {0x2F, 0x68}, {0x10, 0x70}, {0x04, 0x30}});
  const Verdict verdict = court.judge(image);
  CHECK(!verdict.is_sound());
  const Ids ids = court.ids(verdict);
  for (const char* id : {"cell-flat", "check-mismatch", "field-illegal", "clock-byte-illegal"})
    CHECK(std::count(ids.begin(), ids.end(), id) == 1);
}

TEST_CASE("the quick verdict on sound images of every layout is the plain one") {
  Court court;
  Dice dice(81);
  for (const Layout& layout : all_layouts()) {
    INFO(layout.id);
    for (int round = 0; round < 12; ++round) court.hold(random_image(layout, dice));
  }
}

TEST_CASE("the quick verdict on damaged images of every layout is the plain one") {
  Court court;
  Dice dice(82);
  for (const Layout& layout : all_layouts()) {
    INFO(layout.id);
    for (int round = 0; round < 12; ++round)
      court.hold(with_damage(random_image(layout, dice), dice));
  }
}

TEST_CASE("the quick verdict on damage that was sealed is the plain one: checks vouch for it") {
  Court court;
  Dice dice(86);
  for (const Layout& layout : all_layouts()) {
    INFO(layout.id);
    for (int round = 0; round < 12; ++round) {
      Image image = with_damage(random_image(layout, dice), dice);
      for (const std::size_t check : layout.sealing) seal_one(layout.checks[check], image);
      court.hold(image);
    }
  }
}

TEST_CASE("the quick verdict on machines that nobody builds is the plain one") {
  Court court(named("at+disks-1b-short"));
  // 14h, 15h-18h and the disk by hand at 19h, 1Bh-22h (RBIL61), the sum sealed after each.
  const Layout layout = built_in_layout("at+disks-1b-short");
  for (const std::uint8_t equipment : Bytes{0x0D, 0x01, 0x05})
    for (const std::uint8_t base : Bytes{0x80, 0x27, 0x7F})
      for (const std::uint8_t type : Bytes{0x27, 0x2F})
        for (const std::uint8_t heads : Bytes{0x00, 0x04, 0x11}) {
          Image image = with_bytes(at_64_image(), {{0x14, equipment},
                                                   {0x15, base},
                                                   {0x17, 0x04},
                                                   {0x18, heads},
                                                   {0x19, type},
                                                   {0x1D, heads}});
          court.hold(image);
          for (const std::size_t check : layout.sealing) seal_one(layout.checks[check], image);
          court.hold(image);
        }
}

TEST_CASE("the quick verdict by a named layout is the plain one, whatever the image") {
  Dice dice(83);
  for (const char* id : {"at", "crc+copy-29", "at+sum-10-20", "balance", "chip", "at+sum-40-79",
                         "at+disks-1b", "at+sum-40-7d+disks-26+memory-34+options-11"}) {
    INFO(id);
    Court court(named(id));
    for (const Layout& layout : all_layouts())
      for (int round = 0; round < 2; ++round) {
        const Image image = random_image(layout, dice);
        court.hold(image);
        court.hold(with_damage(image, dice));
      }
  }
}

TEST_CASE("the quick verdict on dumps that were misread as a whole is the plain one") {
  Court court;
  Dice dice(84);
  for (const FaultKind& kind : fault_kinds()) {
    INFO(kind.name);
    for (const char* id : {"at", "crc+slots-19", "at+sum-40-79"}) {
      const Image image = random_image(*named(id), dice);
      if (kind.fits(image)) court.hold(kind.inject(image, dice).image);
    }
  }
}

TEST_CASE("the quick verdict on noise, on one value and on unknown bytes is the plain one") {
  Court court;
  Dice dice(85);
  for (const std::size_t size : {std::size_t{64}, std::size_t{128}}) {
    for (int round = 0; round < 4; ++round) court.hold(random_noise(size, dice));
    for (const int value : {0x00, 0xFF, 0x5A})
      court.hold(Image(std::vector<std::uint8_t>(size, static_cast<std::uint8_t>(value))));
  }
  court.hold(without(at_64_image(), {0x00, 0x0D}));
  court.hold(without(crc_64_image(), {0x38, 0x38}));
}

TEST_CASE("every day of the calendar and every hour is judged as the plain way judges it") {
  Court court(named("at"));
  Dice dice(86);
  for (int round = 0; round < 400; ++round) {
    Image image = at_64_image();
    for (const int at : {0x00, 0x01, 0x02, 0x04, 0x05, 0x06, 0x07, 0x08, 0x09, 0x32})
      if (once_in(dice, 3))
        image.set(static_cast<Address>(at), static_cast<std::uint8_t>(roll(dice, 0x60)));
    image.set(0x0B, static_cast<std::uint8_t>(roll(dice, 256)));
    court.hold(image);
  }
}

TEST_CASE("counting verdicts gives what a person would count") {
  const auto layout = named("at");
  FindingSet flat;
  flat.add(FindingKind::cell_flat);
  AuditCounter counter;
  counter.add({layout, {}});
  counter.add({layout, {}});
  counter.add({layout, flat});
  counter.add({nullptr, {}});
  counter.add_no_dump();
  const AuditTally tally = sum(counter.tally(), counter.tally());
  CHECK(tally.dumps() == 8);
  CHECK(tally.sound == 4);
  CHECK(tally.worth.proven == 6);
  CHECK(tally.worth.unproven == 2);
  CHECK(tally.worth.broken == 0);
  CHECK(tally.no_dump == 2);
  CHECK(tally.by_layout.at("at").proven == 6);
  CHECK(tally.by_finding.at("cell-flat") == 2);
  CHECK_FALSE(tally.all_sound());
}

namespace {

/// Layouts with what no built-in one has: a century that rests on three bytes, values that rest on
/// eight or more, checks with conditions.
std::vector<Layout> odd_layouts() {
  const std::string wide = R"("at": "10-1B", "bytes": {}, "default": "000000000000000000000000")";
  const std::string eight = R"("order": "low-first", "number": {})";
  const std::string fields =
      field_entry("wide", wide) + "," +
      field_entry("century", R"("at": "32", "bits": [6, 0], "number": {"range": [0, 99]},
        "escape": {"when": 127, "at": "33", "range": [19, 20]},
        "when": {"at": "34", "bits": [0, 0], "is": 0})") +
      "," + field_entry("free", R"("at": "1C", "number": {})") + "," +
      field_entry("digits", R"("at": "1D", "bcd": {})") + "," +
      field_entry("scaled", R"("at": "1E", "number": {"scale": 2, "offset": 1})") + "," +
      field_entry("long_a", R"("at": "20-23", )" + eight) + "," +
      field_entry("long_b", R"("at": "24-27", "follows": {"same": "long_a"}, )" + eight) + "," +
      field_entry("part", R"("at": "28", "bits": [4, 0], "number": {"range": [1, 9]},
        "when": {"at": "34", "bits": [1, 1], "is": 0})") +
      "," + field_entry("preset", R"("at": "29", "number": {}, "default": 90,
        "follows": {"same": "free"})") +
      "," + field_entry("any", R"("at": "2A", "bits": [0, 0], "flag": {},
        "follows": {"any": ["free", "part"]})") +
      "," + field_entry("text", R"("at": "35-37", "text": {})") + "," +
      field_entry("word", R"("at": "38-3F", "private": {})");
  const auto with = [&](const std::string& id, const std::string& checks) {
    return made_up(R"("fields": [)" + fields + R"(], "checks": [)" + checks + "]", id);
  };
  const std::string sum = check_entry("sum", R"("sum": {"width": 16}, "over": ["10-2D"],
    "stored": {"at": "2E", "order": "high-first"})");
  const std::string conditional = check_entry("conditional", R"("xor": {},
    "over": [{"range": "20-27", "when": {"at": "34", "bits": [2, 2], "is": 1}}],
    "stored": {"at": "30"}, "when": {"at": "34", "bits": [3, 3], "is": 1})");
  return {with("odd", sum), with("odd-conditional", sum + "," + conditional), with("odd-bare", "")};
}

}  // namespace

TEST_CASE("the quick verdict by layouts of unusual fields is the plain one") {
  const std::vector<Layout> layouts = odd_layouts();
  Dice dice(87);
  Court choosing(layouts);
  std::vector<std::unique_ptr<Court>> named_ones;
  for (const Layout& layout : layouts)
    named_ones.push_back(std::make_unique<Court>(std::make_shared<const Layout>(layout)));
  for (int round = 0; round < 60; ++round) {
    Image image = random_noise(Image::small_size, dice);
    for (Address at = 0; at < Image::ram_start; ++at) image.set(at, at_64_image()[at]);
    if (once_in(dice, 2)) image.set(0x32, once_in(dice, 2) ? 0x7F : 0x14);
    if (once_in(dice, 2)) image.set(0x33, 0x14);
    if (once_in(dice, 3))
      for (Address at = 0x20; at < 0x24; ++at) image.set(at + 4, image[at]);
    if (once_in(dice, 4))
      for (Address at = 0x10; at < 0x2E; ++at) image.set(at, 0x00);
    for (const Check& check : layouts[1].checks) seal_one(check, image);
    if (once_in(dice, 3)) image = with_damage(image, dice);
    choosing.hold(image);
    for (const auto& court : named_ones) court->hold(image);
  }
}

TEST_CASE("the quick verdict by a layout of more than twenty checks is the plain one") {
  std::string checks;
  for (int i = 0; i < 24; ++i)
    checks += (i == 0 ? "" : ",") + check_entry("c" + std::to_string(i),
                                                R"("xor": {}, "over": ["0E-10", "3F"],
                "stored": {"at": ")" +
                                                    to_text(Range{static_cast<Address>(0x11 + i),
                                                                  static_cast<Address>(0x11 + i)}) +
                                                    R"("})");
  const std::vector<Layout> layouts = {made_up(R"("checks": [)" + checks + "]", "many")};
  Dice dice(88);
  Court by_many(std::make_shared<const Layout>(layouts[0])), choosing(layouts);
  for (int round = 0; round < 20; ++round) {
    Image image = at_64_image();
    image.set(0x3F, static_cast<std::uint8_t>(roll(dice, 256)));
    for (const Check& check : layouts[0].checks) seal_one(check, image);
    if (once_in(dice, 2)) image = with_damage(image, dice);
    by_many.hold(image);
    choosing.hold(image);
  }
}
