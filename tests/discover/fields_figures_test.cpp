// What trace says about firmwares that nobody documented, and what its drafts do to their images:
// scripts/figures.sh discovery prints the figures of docs/figures.md.

#include <algorithm>
#include <catch2/catch.hpp>

#include "discover/draft.h"
#include "discover/trace.h"
#include "discover/unknown_bench.h"
#include "judge/examine.h"
#include "layout/library.h"
#include "layout/load.h"
#include "make/amend.h"
#include "make/compose.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

constexpr int own_dumps = 10;  // of each machine, that its draft has not seen

struct Fields {
  int settings = 0, found = 0, settled = 0, foreign = 0;
  int drafts = 0, unloadable = 0, judged = 0, broken = 0;
};

// Images that a draft made by one changed setting.
struct Made {
  int images = 0, proven = 0;
  int refused_as_named = 0;    // proven, and a warning names the setting
  int refused_as_draft = 0;    // proven, and the warning is that of every draft
  int refused_in_silence = 0;  // proven, and there is no warning
};

struct Way {
  const char* name;
  Fields fields;
  Made amended, composed;
};

bool has_bit(const Bit& bit, Address at, unsigned bits) {
  return bit.at == at && (bits >> bit.bit & 1) != 0;
}

// Bits that are neither the setting's nor its code once more.
bool is_foreign(const Bit& bit, const UnknownFirmware& firmware, std::size_t number) {
  const UnknownFirmware::Setting& setting = firmware.settings[number];
  const auto& mirror = firmware.mirror;
  if (mirror && mirror->setting == number && has_bit(bit, mirror->at, setting.mask)) return false;
  return !has_bit(bit, setting.at, static_cast<unsigned>(setting.mask) << setting.shift);
}

const TracedField* field_of(const Trace& trace, const std::string& setting) {
  for (const TracedField& field : trace.fields)
    if (!field.is_shared() && field.settings[0] == setting) return &field;
  return nullptr;
}

void count_fields(const Trace& trace, const UnknownFirmware& firmware, Fields& fields) {
  for (std::size_t i = 0; i < firmware.settings.size(); ++i) {
    ++fields.settings;
    const TracedField* field = field_of(trace, firmware.settings[i].name);
    if (field == nullptr) continue;
    ++fields.found;
    if (!field->open.empty()) continue;
    ++fields.settled;
    if (std::ranges::any_of(field->encoding.bits,
                            [&](const Bit& bit) { return is_foreign(bit, firmware, i); }))
      ++fields.foreign;
  }
}

void count_made(const Image& image, const Layout& layout, const Field& field,
                const UnknownMachine& machine, Made& made) {
  ++made.images;
  if (examine(image, layout).standing.settings != Standing::Settings::proven) return;
  ++made.proven;
  if (machine.accepts(image)) return;
  const auto warned_of = [&](const std::string& what) {
    return std::ranges::any_of(layout.when_writing, [&](const std::string& warning) {
      return warning.find(what) != std::string::npos;
    });
  };
  if (warned_of(field.label))
    ++made.refused_as_named;
  else if (warned_of("one setting makes of another"))
    ++made.refused_as_draft;
  else
    ++made.refused_in_silence;
}

void count_images(const Layout& layout, UnknownMachine& machine, Way& way) {
  for (const Field& field : layout.fields) {
    if (field.read_only || field.choices.empty()) continue;
    const Value& value = field.choices.back().name;
    count_made(amend(machine.start_anyhow(), layout, {{field.id, value}}), layout, field, machine,
               way.amended);
    Description description;
    description.set = {{field.id, value}};
    count_made(compose(description, layout), layout, field, machine, way.composed);
  }
}

void count_draft(const Trace& trace, UnknownMachine& machine, Way& way) {
  ++way.fields.drafts;
  std::optional<Layout> layout;
  try {
    layout = load_layout(draft_layout(trace).layout.dump(), "draft", embedded_text);
  } catch (const std::exception&) {
    ++way.fields.unloadable;
    return;
  }
  for (int i = 0; i < own_dumps; ++i) {
    ++way.fields.judged;
    if (examine(machine.start_anyhow(), *layout).standing.settings == Standing::Settings::broken)
      ++way.fields.broken;
  }
  count_images(*layout, machine, way);
}

void count_way(const Trace& trace, UnknownMachine& machine, Way& way) {
  count_fields(trace, machine.firmware(), way.fields);
  count_draft(trace, machine, way);
}

void print_made(const char* how, const Made& made) {
  fmt::print(
      "  {} {}: {} proven, of which the firmware refuses {} of whose setting a warning speaks, {} "
      "with the warning of every draft, {} without any\n",
      made.images, how, made.proven, made.refused_as_named, made.refused_as_draft,
      made.refused_in_silence);
}

void print_way(const Way& way) {
  const Fields& f = way.fields;
  fmt::print(
      "{}: {} of {} settings found, {} settled, {} of them with a foreign bit; {} of {} "
      "drafts do not load; {} of {} own dumps broken\n",
      way.name, f.found, f.settings, f.settled, f.foreign, f.unloadable, f.drafts, f.broken,
      f.judged);
  print_made("amended", way.amended);
  print_made("composed", way.composed);
}

bool wrong(const Way& way) {
  const Fields& fields = way.fields;
  return fields.foreign + fields.unloadable + fields.broken + way.amended.refused_in_silence +
             way.composed.refused_in_silence >
         0;
}

void check_way(const Way& way) {
  CHECK(way.fields.foreign == 0);
  CHECK(way.fields.unloadable == 0);
  CHECK(way.fields.broken == 0);
  CHECK(way.fields.found * 100 >= way.fields.settings * 95);
  CHECK(way.amended.refused_in_silence == 0);
  CHECK(way.composed.refused_in_silence == 0);
}

}  // namespace

TEST_CASE("discovery's drafts never call a machine's own dump broken", "[.][figures]") {
  Way small{"small changes", {}, {}, {}}, advised{"small changes and six mixed", {}, {}, {}};
  std::uint32_t right = 0;
  for (std::uint32_t number = 1; number <= firmwares(); ++number) {
    UnknownMachine machine = machine_number(number);
    const auto steps = one_at_a_time(machine);
    count_way(trace(steps, {}, {}), machine, small);
    count_way(trace(steps, {}, {}, {}, everything(machine, 6)), machine, advised);
    if (!wrong(small) && !wrong(advised)) right = number;
  }
  print_way(small);
  print_way(advised);
  INFO("nothing wrong up to firmware " << right);
  check_way(small);
  check_way(advised);
}
