#include <catch2/catch.hpp>

#include "deliver/debugger.h"
#include "deliver/samples.h"
#include "deliver/small_basic.h"

// The power fails between two writes, at every one of them. What the chip then holds is the old
// image, the new one, or one that a check of its class refuses.

namespace rtcmend::test {

namespace {

constexpr std::size_t patience = 3'000'000;

/// Runs a way on the machine to its end, as a person would who wants the image in.
void run_way(OldMachine& machine, const Parcel& parcel, Way way, Dice& dice) {
  const Delivery delivery = deliver(parcel, way);
  const std::string& content = delivery.content;
  switch (way) {
    case Way::debugger_script:
      fresh_debugger(machine, dice);
      debug_session(machine, content);
      return;
    case Way::basic_listing: {
      machine.scramble(dice, 0);
      SmallBasic basic(content);
      basic.answers = {"W"};
      basic.on_in = [&](int port) { return machine.cpu.on_in(static_cast<std::uint16_t>(port)); };
      basic.on_out = [&](int port, int value) {
        if (port == 0x70) machine.chip.selected = value & 0x7F;
        if (port == 0x71) machine.chip.write(static_cast<std::uint8_t>(value));
      };
      basic.run();
      return;
    }
    case Way::keyboard_program:
    case Way::boot_floppy:
    case Way::dos_program:
      break;
  }
  machine.keys = "w";
  machine.cpu.load_com({reinterpret_cast<const std::uint8_t*>(content.data()), content.size()});
  machine.scramble(dice, content.size());
  machine.cpu.run(patience);
}

bool passes(const Parcel& parcel, const Image& image) {
  for (const Check& check : parcel.checks) {
    const CheckResult result = evaluate(check, image);
    if (result.stored != result.computed) return false;
  }
  return true;
}

/// Bytes that tell two images apart: RAM, without the century, which goes with the clock, and the
/// reason of the last shutdown, which every start uses for itself.
bool same_ram(const Image& a, const Image& b, std::optional<Address> century) {
  for (Address at = Image::ram_start; at < a.size(); ++at)
    if (at != 0x0F && at != century && a[at] != b[at]) return false;
  return true;
}

struct Count {
  std::size_t states = 0;
  std::size_t half_and_passing = 0;
};

/// Every state of the chip between two writes.
Count interrupt_everywhere(const Parcel& parcel, Way way, std::uint32_t seed) {
  Dice dice(seed);
  OldMachine machine;
  std::optional<Image> old;
  // The chip is filled by the run; what it held is what the trace starts from.
  machine.chip.on_first_write = [&](const ChipModel& chip) {
    old = chip.image(parcel.image.size());
  };
  run_way(machine, parcel, way, dice);
  REQUIRE(old);
  REQUIRE(passes(parcel, machine.chip.image(parcel.image.size())));
  Count count;
  Image state = *old;
  for (const auto& [at, value] : machine.chip.writes) {
    if (at >= state.size() || at == 0x0C || at == 0x0D) continue;
    state.set(at, value);
    ++count.states;
    const bool whole =
        same_ram(state, *old, parcel.century) || same_ram(state, parcel.image, parcel.century);
    if (!whole && passes(parcel, state)) ++count.half_and_passing;
  }
  return count;
}

Count interrupt_often(const Parcel& parcel, Way way, std::uint32_t chips) {
  Count all;
  for (std::uint32_t seed = 1; seed <= chips; ++seed) {
    const Count one = interrupt_everywhere(parcel, way, seed);
    all.states += one.states;
    all.half_and_passing += one.half_and_passing;
  }
  return all;
}

}  // namespace

TEST_CASE("the DOS program, interrupted at any write, leaves no half image that passes", "[long]") {
  const Parcel parcel = GENERATE(at_64(), at_128(), crc_64(), balance_64());
  INFO(parcel.layout);
  const Count count = interrupt_often(parcel, Way::dos_program, 20);
  CHECK(count.half_and_passing == 0);
  CHECK(count.states >= 20 * 50);
}

TEST_CASE("what is typed, interrupted at any write, leaves no half image that passes",
          "[long][count]") {
  Parcel parcel = GENERATE(at_64(), at_128(), crc_64(), balance_64());
  parcel.clock = GENERATE(ClockPolicy::keep, ClockPolicy::image);
  const Way way = GENERATE(Way::debugger_script, Way::keyboard_program, Way::basic_listing);
  INFO(parcel.layout << ", " << name(way) << ", clock " << name(parcel.clock));
  const Count count = interrupt_often(parcel, way, 60);
  CHECK(count.half_and_passing == 0);
  CHECK(count.states >= 60 * 50);
}

}  // namespace rtcmend::test
