#include <catch2/catch.hpp>

#include "base/error.h"
#include "check/check.h"
#include "deliver/old_machine.h"
#include "deliver/parcel.h"
#include "deliver/restore_program.h"
#include "deliver/samples.h"
#include "layout/library.h"

namespace rtcmend::test {

namespace {

constexpr std::size_t reset_flag = 0x472;  // 40h:72h

Parcel when_lost(Parcel parcel) {
  parcel.occasion = Occasion::when_lost;
  return parcel;
}

/// A machine whose chip holds an image.
void put_in(OldMachine& machine, const Image& image) {
  for (Address at = Image::ram_start; at < image.size(); ++at) machine.chip.bytes[at] = image[at];
}

Stop run(OldMachine& machine, const Parcel& parcel, const std::string& keys = {}) {
  machine.keys = keys;
  return machine.run_com(deliver(parcel, Way::dos_program).content);
}

bool restarts_warm(const OldMachine& machine) {
  return machine.cpu.memory[reset_flag] == 0x34 && machine.cpu.memory[reset_flag + 1] == 0x12;
}

bool shows(const OldMachine& machine, std::string_view text) {
  return machine.screen.find(text) != std::string::npos;
}

/// By the firmware's count, which began at 0.
unsigned ticks_passed(const OldMachine& machine) {
  return machine.cpu.memory[0x46C] + 256U * machine.cpu.memory[0x46D];
}

struct Sample {
  std::string name;
  Rule rule;
  Order order = Order::high_first;
};

const std::vector<Sample>& samples() {
  static const std::vector<Sample> all{
      {"16-bit sum", SumRule{}},
      {"16-bit sum, low first", SumRule{}, Order::low_first},
      {"8-bit sum with a start", SumRule{8, 0x5A, Sign::plain, {}}},
      {"negated sum", SumRule{16, 3, Sign::negated, {}}},
      {"complemented 8-bit sum", SumRule{8, 0, Sign::complemented, {}}},
      {"sum of pairs, low first", SumRule{16, 0, Sign::plain, Order::low_first}},
      {"sum of pairs, high first", SumRule{16, 0, Sign::plain, Order::high_first}},
      {"xor", XorRule{0x21}},
      {"balance", BalanceRule{0xAA}},
      {"CRC-16/IBM-3740", CrcRule{crc_models::ibm_3740}},
      {"CRC-16/KERMIT", CrcRule{{16, 0x1021, 0x0000, true, true, 0x0000}}},
      {"CRC-16/IBM-SDLC", CrcRule{{16, 0x1021, 0xFFFF, true, true, 0xFFFF}}},
      {"CRC-8/SMBUS", CrcRule{crc_models::smbus}},
      {"CRC-8/MAXIM-DOW", CrcRule{{8, 0x31, 0x00, true, true, 0x00}}},
  };
  return all;
}

/// Over 10h-20h (an odd number of bytes) and 22h-2Dh, stored at 2Eh.
Check check_of(const Sample& sample) {
  Check check;
  check.id = "sample";
  check.rule = sample.rule;
  check.over = {{{0x10, 0x20}, std::nullopt}, {{0x22, 0x2D}, std::nullopt}};
  check.stored_at = 0x2E;
  check.order = sample.order;
  return check;
}

}  // namespace

TEST_CASE("when-lost leaves a sound chip alone, even one that is not the image") {
  const Parcel parcel = when_lost(at_64());
  OldMachine machine;
  Image other = parcel.image;
  other.set(0x10, 0x44);
  other.set(0x2F, 0x70);  // the sum grows by 4 with 10h
  put_in(machine, other);
  CHECK(run(machine, parcel) == Stop::ended);
  CHECK(machine.exit_code == 0);
  CHECK(machine.chip.writes.empty());
  CHECK(machine.screen.find("The clock chip is sound.") != std::string::npos);
}

TEST_CASE("when-lost restores a lost chip and restarts the machine warm") {
  const auto junk = GENERATE(as<std::uint8_t>(), 0x00, 0xFF, 0x5A);
  const Parcel parcel = when_lost(at_64());
  OldMachine machine;
  for (Address at = 0x0E; at < 0x40; ++at) machine.chip.bytes[at] = junk;
  CHECK(run(machine, parcel) == Stop::restarted);
  CHECK(restarts_warm(machine));
  CHECK(machine.chip.image(64).at(0x2F) == 0x6C);
  CHECK(machine.chip.bytes[0x3F] == 0x3F);
  CHECK(machine.chip.bytes[0x04] == 0x12);  // the clock was sound and stays
  machine.screen.clear();
  CHECK(run(machine, parcel) == Stop::ended);
  CHECK(machine.exit_code == 0);
  CHECK(shows(machine, "Its bytes were restored at the last start. The clock says "));
  machine.screen.clear();
  CHECK(run(machine, parcel) == Stop::ended);
  CHECK_FALSE(shows(machine, "restored"));  // the mark is gone
}

TEST_CASE("when-lost starts a dead clock with the image's time, and tells which") {
  Parcel parcel = when_lost(at_64());
  parcel.image.set(0x04, 0x17);
  OldMachine machine;
  machine.chip.bytes.fill(0xFF);
  machine.chip.bytes[0x0D] = 0x00;
  CHECK(run(machine, parcel) == Stop::restarted);
  CHECK(shows(machine, "The clock is set to the image's time, 1994-05-06 17:00:00"));
  CHECK(machine.chip.bytes[0x04] == 0x17);
  CHECK(machine.chip.bytes[0x0A] == 0x26);
  CHECK(machine.chip.bytes[0x0B] == 0x02);
  machine.screen.clear();
  CHECK(run(machine, parcel) == Stop::ended);
  CHECK(shows(machine, "The clock says 1994-05-06 17:00:"));
}

TEST_CASE("a key during the notice leaves the chip and goes on") {
  OldMachine machine;
  OldMachine* pressed = &machine;
  machine.cpu.on_beat = [pressed, old = machine.cpu.on_beat] {
    if (shows(*pressed, "any key leaves the chip") && pressed->keys.empty()) pressed->keys = "x";
    old();
  };
  CHECK(run(machine, when_lost(at_64())) == Stop::ended);
  CHECK(machine.exit_code == 2);
  CHECK(machine.chip.writes.empty());
  CHECK_FALSE(restarts_warm(machine));
}

TEST_CASE("keys that were pressed while the machine started do not stop when-lost") {
  OldMachine machine;
  machine.early_keys = std::string(6, '\0');  // F1, six times
  CHECK(run(machine, when_lost(at_64())) == Stop::restarted);
  CHECK(machine.chip.bytes[0x10] == 0x40);
}

TEST_CASE("a restore that follows a restore waits for a person, warm word or none") {
  const Parcel parcel = when_lost(at_64());
  OldMachine machine;
  CHECK(run(machine, parcel) == Stop::restarted);
  // A firmware that keeps neither the word at 40h:72h nor a byte that the check covers.
  for (int start = 0; start < 3; ++start) {
    machine.cpu.memory[reset_flag] = machine.cpu.memory[reset_flag + 1] = 0;
    machine.chip.bytes[0x20] = 0x00;
    machine.screen.clear();
    CHECK(run(machine, parcel) == Stop::ended);
    CHECK(machine.exit_code == 0);
    CHECK(machine.chip.bytes[0x20] == 0x08);
    CHECK(shows(machine, "Press a key to go on without a restart."));
    CHECK_FALSE(restarts_warm(machine));
  }
  OldMachine just_restarted;
  just_restarted.cpu.memory[reset_flag] = 0x34;
  just_restarted.cpu.memory[reset_flag + 1] = 0x12;
  CHECK(run(just_restarted, parcel) == Stop::ended);
  CHECK(just_restarted.chip.bytes[0x10] == 0x40);
  CHECK(shows(just_restarted, "Press a key to go on without a restart."));
}

TEST_CASE(
    "when-lost does not restart where the bytes do not hold, and pauses so that it can be read") {
  OldMachine worn;
  worn.chip.writable = false;
  CHECK(run(worn, when_lost(at_64())) == Stop::ended);
  CHECK(worn.exit_code == 1);
  CHECK_FALSE(restarts_warm(worn));
  CHECK(shows(worn, "write protected"));
  CHECK(shows(worn, "The machine goes on in ten seconds, or with a key."));
  CHECK(ticks_passed(worn) >= 182 + 37);  // ten seconds, and the two of the notice
}

TEST_CASE("the floppy's own program when the chip is lost does as the one for DOS") {
  const Parcel parcel = when_lost(at_64());
  const WritePlan plan = plan_writing(parcel);
  OldMachine machine;
  machine.early_keys = std::string(6, '\0');
  CHECK(machine.run_booted(restore_program("restore_floppy", parcel, plan)) == Stop::restarted);
  CHECK(restarts_warm(machine));
  CHECK(machine.chip.bytes[0x10] == 0x40);
  machine.cpu.memory[reset_flag] = machine.cpu.memory[reset_flag + 1] = 0;
  machine.chip.bytes[0x20] = 0x00;
  machine.keys = "g";
  machine.screen.clear();
  machine.run_booted(restore_program("restore_floppy", parcel, plan));
  CHECK(shows(machine, "Press a key to go on without a restart."));
  CHECK(shows(machine, "There is no hard disk to start from."));
}

TEST_CASE("the old machine judges every kind of check as rtcmend does") {
  const Sample& sample = GENERATE(from_range(samples()));
  INFO(sample.name);
  Parcel parcel = when_lost(at_64());
  parcel.checks = {check_of(sample)};
  seal_one(parcel.checks[0], parcel.image);
  OldMachine sound;
  put_in(sound, parcel.image);
  CHECK(run(sound, parcel) == Stop::ended);
  CHECK(sound.chip.writes.empty());
  for (const Address at : {Address{0x10}, Address{0x20}, Address{0x2D}, Address{0x2E}}) {
    OldMachine damaged;
    put_in(damaged, parcel.image);
    damaged.chip.bytes[at] ^= 0x08;
    CHECK(run(damaged, parcel) == Stop::restarted);
  }
}

TEST_CASE("a check counts on the old machine only under its condition") {
  Parcel parcel = when_lost(at_64());
  parcel.checks[0].when = Condition{0x29, 0x80, 0x80};  // 29h is C7h
  Check second = check_of({"8-bit sum", SumRule{8, 0, Sign::plain, {}}});
  second.over = {{{0x10, 0x12}, Condition{0x13, 0xFF, 0x03}},
                 {{0x14, 0x18}, Condition{0x13, 0x04, 0x04}}};
  second.stored_at = 0x3C;
  second.when = Condition{0x13, 0x03, 0x03};
  parcel.checks.push_back(second);
  parcel.image.set(0x3C, 0x30);  // 40h + 00h + F0h; 14h-18h do not count
  OldMachine sound;
  put_in(sound, parcel.image);
  CHECK(run(sound, parcel) == Stop::ended);
  sound.chip.bytes[0x3C] = 0x31;
  CHECK(run(sound, parcel) == Stop::restarted);
}

namespace {

/// A check over 34h-3Bh, all zeros, with its result in 3Ch.
Parcel with_empty_area(std::uint8_t filling, std::uint8_t stored) {
  Parcel parcel = when_lost(at_64());
  Check second = check_of({"xor", XorRule{}});
  second.over = {{{0x34, 0x3B}, std::nullopt}};
  second.stored_at = 0x3C;
  parcel.checks.push_back(second);
  for (Address at = 0x34; at < 0x3C; ++at) parcel.image.set(at, filling);
  parcel.image.set(0x3C, stored);
  return parcel;
}

Stop run_on_itself(const Parcel& parcel) {
  OldMachine machine;
  put_in(machine, parcel.image);
  return run(machine, parcel);
}

}  // namespace

TEST_CASE("beside a check that holds, an area of equal bytes is empty on the old machine too") {
  CHECK(run_on_itself(with_empty_area(0x00, 0x00)) == Stop::ended);
  CHECK(run_on_itself(with_empty_area(0xFF, 0x00)) == Stop::ended);
  CHECK(run_on_itself(with_empty_area(0x5A, 0x00)) == Stop::ended);
  CHECK(run_on_itself(with_empty_area(0x00, 0x01)) == Stop::restarted);
  Parcel alone = with_empty_area(0x00, 0x00);
  alone.checks.erase(alone.checks.begin());
  CHECK(run_on_itself(alone) == Stop::restarted);
}

TEST_CASE("an empty area of the library's second sum does not make the old machine restart") {
  const Layout layout = built_in_layout("at+sum-34-3d");
  Image image = with_empty_area(0x00, 0x00).image;
  for (Address at = 0x32; at < 0x40; ++at) image.set(at, 0x00);
  image.set(0x32, 0x20);
  CHECK(run_on_itself(when_lost(parcel_of(image, layout))) == Stop::ended);
}

TEST_CASE("a check none of whose stretches counts says nothing on the old machine") {
  Parcel parcel = with_empty_area(0x11, 0x77);
  CHECK(run_on_itself(parcel) == Stop::restarted);
  parcel.checks[1].over[0].when = Condition{0x29, 0xFF, 0x00};  // 29h is C7h
  CHECK(run_on_itself(parcel) == Stop::ended);
}

TEST_CASE("a layout without checks cannot tell that a chip is lost") {
  Parcel parcel = when_lost(at_64());
  parcel.checks.clear();
  CHECK_THROWS_AS(deliver(parcel, Way::dos_program), Error);
  CHECK_THROWS_AS(deliver(parcel, Way::boot_floppy), Error);
}

}  // namespace rtcmend::test
