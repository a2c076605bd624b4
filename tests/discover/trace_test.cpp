#include "discover/trace.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "discover/bench_session.h"
#include "discover/draft.h"
#include "layout/load.h"
#include "support/sanitized.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

using Bits = std::set<std::pair<Address, std::uint8_t>>;

Bits bits_of(const std::vector<Bit>& bits) {
  Bits all;
  for (const Bit& bit : bits) all.emplace(bit.at, bit.bit);
  return all;
}

Bits bits_of(const TracedField& field) {
  Bits all = bits_of(field.encoding.bits);
  for (const auto& copy : field.encoding.copies) all.merge(bits_of(copy));
  return all;
}

Bits bits_of(const std::vector<BitAt>& bits) {
  Bits all;
  for (const BitAt& bit : bits) all.emplace(bit.at, bit.bit);
  return all;
}

// Planted bits that are 0 for one value and 1 for another.
Bits moving_bits(const Knob& knob) {
  Bits moving;
  for (const auto* bits : {&knob.bits, &knob.second_copy}) {
    for (std::size_t i = 0; i < bits->size(); ++i) {
      std::set<std::uint32_t> seen;
      for (const std::uint32_t code : knob.codes) seen.insert(code >> (bits->size() - 1 - i) & 1U);
      if (seen.size() == 2) moving.emplace((*bits)[i].at, (*bits)[i].bit);
    }
  }
  return moving;
}

bool is_subset(const Bits& part, const Bits& whole) {
  return std::ranges::includes(whole, part);
}

const TracedField* field_of(const Trace& trace, const std::string& setting) {
  for (const TracedField& field : trace.fields)
    if (!field.is_shared() && field.settings[0] == setting) return &field;
  return nullptr;
}

// A tally that only one of its settings ever moves is that setting's for anyone who looks.
Bits bits_that_may_be(const InventedFirmware& firmware, std::size_t knob) {
  Bits bits = bits_of(firmware.knobs[knob].bits);
  bits.merge(bits_of(firmware.knobs[knob].second_copy));
  for (const Tally& tally : firmware.tallies)
    if (std::ranges::count(tally.knobs, knob) != 0) bits.merge(bits_of(tally.bits));
  return bits;
}

void check_settings(const InventedFirmware& firmware, const Trace& trace) {
  for (std::size_t k = 0; k < firmware.knobs.size(); ++k) {
    const Knob& knob = firmware.knobs[k];
    INFO(knob.name);
    const TracedField* field = field_of(trace, knob.name);
    REQUIRE(field != nullptr);
    CHECK(is_subset(moving_bits(knob), bits_of(*field)));
    CHECK(is_subset(bits_of(*field), bits_that_may_be(firmware, k)));
    CHECK(field->values.size() == knob.values.size());
  }
}

void check_shared(const InventedFirmware& firmware, const Trace& trace) {
  for (const TracedField& field : trace.fields) {
    if (!field.is_shared()) continue;
    REQUIRE(firmware.tallies.size() == 1);
    CHECK(is_subset(bits_of(field), bits_of(firmware.tallies[0].bits)));
  }
}

void check_restless(const InventedFirmware& firmware, const Trace& trace) {
  std::set<Address> restless(firmware.restless.begin(), firmware.restless.end());
  for (const Address at : firmware.counters) restless.insert({at, static_cast<Address>(at + 1)});
  for (const Address at : trace.restless) CHECK(restless.contains(at));
  for (const Address at : firmware.restless) CHECK(std::ranges::count(trace.restless, at) == 1);
}

void check_drags(const InventedFirmware& firmware, const Trace& trace) {
  for (const Drag& drag : firmware.drags) {
    const TracedField* field = field_of(trace, firmware.knobs[drag.knob].name);
    REQUIRE(field != nullptr);
    CHECK(field->drags == std::vector<std::string>{firmware.knobs[drag.moves].name});
  }
}

// The draft is a layout that the rest of the program takes, and it reads the settings.
void check_draft(const InventedFirmware& firmware, const Trace& trace) {
  const auto parts = [](std::string_view) { return std::string_view(); };
  const Layout layout = load_layout(draft_layout(trace).layout.dump(), "draft", parts);
  CHECK(layout.size == firmware.size);
  CHECK(layout.fields.size() >= firmware.knobs.size());
  const auto settled =
      std::ranges::count_if(trace.checks, [](const Model& model) { return model.is_settled(); });
  CHECK(layout.checks.size() == static_cast<std::size_t>(settled));
}

// What a check says of bytes that move by themselves proves nothing: it needs settings to show.
bool shows_its_check(const InventedFirmware& firmware) {
  return std::ranges::count_if(firmware.knobs, [&](const Knob& knob) {
           return std::ranges::any_of(
               knob.bits, [&](const BitAt& bit) { return firmware.guard.over.contains(bit.at); });
         }) > 1;
}

void check_firmwares(std::uint32_t first, std::uint32_t count) {
  for (std::uint32_t start = first; start < first + count; ++start) {
    Dice dice(start);
    InventedMachine machine(invent_firmware(dice), start);
    const InventedFirmware& firmware = machine.firmware();
    const Trace found = trace(sit_at_the_bench(machine), {}, {});
    INFO("firmware " << start);
    if (!shows_its_check(firmware)) {
      CHECK(found.checks.empty());
      continue;
    }
    check_draft(firmware, found);
    check_settings(firmware, found);
    check_shared(firmware, found);
    check_restless(firmware, found);
    check_drags(firmware, found);
    REQUIRE(found.checks.size() == 1);
    // The high byte of a sum that never changed may be left out: one byte explains all dumps.
    const Address stored_at = found.checks[0].check.stored_at;
    CHECK((stored_at == firmware.guard.at || stored_at == firmware.guard.at + 1));
    CHECK(found.contradictions.empty());
    CHECK(found.silent.empty());
  }
}

}  // namespace

TEST_CASE("every field of invented firmwares is traced, and nothing else", "[long][count]") {
  check_firmwares(1, is_sanitized ? 20 : 80);
}
