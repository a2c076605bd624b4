#include <catch2/catch.hpp>

#include "base/error.h"
#include "deliver/debugger.h"
#include "deliver/samples.h"
#include "forms/form.h"

namespace rtcmend::test {

namespace {

bool holds(const OldMachine& machine, const Image& wanted) {
  for (Address at = Image::ram_start; at < wanted.size(); ++at)
    if (wanted.known(at) && machine.chip.bytes[at] != wanted[at]) return false;
  return true;
}

/// 50 RAM bytes without a zero, a small number or two letters in a row: the most to type.
Parcel hardest() {
  Parcel parcel = at_64();
  for (Address at = Image::ram_start; at < 64; ++at)
    parcel.image.set(at, static_cast<std::uint8_t>(0x80 + at));
  return parcel;
}

}  // namespace

TEST_CASE("the debugger script writes 64 and 128 bytes and ends with BX = 0000") {
  const Parcel parcel = GENERATE(at_64(), at_128(), crc_64());
  OldMachine machine;
  const std::string printed = debug_session(machine, deliver(parcel, Way::debugger_script).content);
  CHECK(holds(machine, parcel.image));
  CHECK(printed.find("BX=0000") != std::string::npos);
  CHECK(machine.guarded);
  CHECK(machine.chip.selected == 0x0D);
  CHECK_FALSE(machine.chip.nmi_masked);
  CHECK(machine.chip.bytes[0x04] == 0x12);
}

TEST_CASE("the debugger script stores the check bytes last") {
  OldMachine machine;
  debug_session(machine, deliver(at_64(), Way::debugger_script).content);
  REQUIRE(machine.chip.writes.size() == 50);
  CHECK(machine.chip.writes[48].first == 0x2E);
  CHECK(machine.chip.writes[49].first == 0x2F);
}

TEST_CASE("the debugger script can write the image's time") {
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::image;
  parcel.image.set(0x04, 0x21);
  OldMachine machine;
  machine.chip.bytes[0x0A] = 0x00;
  const std::string printed = debug_session(machine, deliver(parcel, Way::debugger_script).content);
  CHECK(printed.find("BX=0000") != std::string::npos);
  CHECK(machine.chip.bytes[0x04] == 0x21);
  CHECK(machine.chip.bytes[0x0A] == 0x26);
  CHECK(machine.chip.bytes[0x0B] == 0x02);
  CHECK(machine.chip.writes.front() == std::pair<Address, std::uint8_t>{0x0B, 0x82});
  CHECK(machine.chip.writes.back() == std::pair<Address, std::uint8_t>{0x0B, 0x02});
}

TEST_CASE("the debugger script takes at most 8 keystrokes a byte") {
  CHECK(deliver(at_64(), Way::debugger_script).keystrokes <= 8 * 50);
  CHECK(deliver(hardest(), Way::debugger_script).keystrokes <= 8 * 50);
}

TEST_CASE("a mistyped digit of the debugger script's data writes nothing") {
  const std::string script = deliver(at_64(), Way::debugger_script).content;
  const auto data = script.find(" f0 3 41 ");  // 12h-14h of the image
  REQUIRE(data != std::string::npos);
  for (const auto& [at, digit] :
       std::vector<std::pair<std::size_t, char>>{{1, 'e'}, {2, '8'}, {4, '2'}}) {
    std::string wrong = script;
    wrong[data + at] = digit;
    OldMachine machine;
    const std::string printed = debug_session(machine, wrong);
    CHECK(machine.chip.writes.empty());
    CHECK(printed.find("BX=0000") == std::string::npos);
  }
  std::string swapped = script;
  swapped.replace(data, 9, " 3 f0 41 ");
  OldMachine machine;
  debug_session(machine, swapped);
  CHECK(machine.chip.writes.empty());
}

TEST_CASE("the debugger script shows the byte that did not take") {
  OldMachine machine;
  machine.chip.writable = false;
  const std::string printed =
      debug_session(machine, deliver(at_64(), Way::debugger_script).content);
  CHECK(printed.find("90  CX") != std::string::npos);  // BL = 80h + 10h, the first that differs
}

TEST_CASE("bytes that the image does not know are not touched by the debugger script") {
  Parcel parcel = at_64();
  parcel.image.forget(0x20);
  OldMachine machine;
  machine.chip.bytes[0x20] = 0x77;
  const Delivery delivery = deliver(parcel, Way::debugger_script);
  debug_session(machine, delivery.content);
  CHECK(machine.chip.bytes[0x20] == 0x77);
  CHECK(holds(machine, parcel.image));
  CHECK(delivery.left_alone == Addresses{0x20});
}

TEST_CASE("the debugger script can neither ask for the time nor look first") {
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::ask;
  CHECK_THROWS_AS(deliver(parcel, Way::debugger_script), Error);
  parcel = at_64();
  parcel.occasion = Occasion::when_lost;
  CHECK_THROWS_AS(deliver(parcel, Way::debugger_script), Error);
}

TEST_CASE("what the debugger's capture script prints reads back as hex") {
  OldMachine machine;
  for (Address at = 0x0E; at < 0x80; ++at)
    machine.chip.bytes[at] = static_cast<std::uint8_t>(at * 37 + 11);
  const std::string printed = debug_session(machine, capture({}, Way::debugger_script).content);
  CHECK(machine.chip.writes.empty());
  const Dump dump = read_dump(printed, "session.txt");
  CHECK(dump.form == Form::hex);
  CHECK(dump.image == machine.chip.image(128));
}

}  // namespace rtcmend::test
