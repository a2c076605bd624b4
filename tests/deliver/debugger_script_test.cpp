#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "base/error.h"
#include "deliver/debugger.h"
#include "deliver/samples.h"
#include "deliver/slips.h"
#include "forms/form.h"

namespace rtcmend::test {

namespace {

bool holds(const OldMachine& machine, const Image& wanted) {
  for (Address at = Image::ram_start; at < wanted.size(); ++at)
    if (wanted.known(at) && machine.chip.bytes[at] != wanted[at]) return false;
  return true;
}

/// What the debugger shows where every byte took.
std::string sign(const Delivery& delivery) {
  return fmt::format("BX={:04X}", delivery.sign.value());
}

bool claims(const std::string& printed, const Delivery& delivery) {
  return printed.find(sign(delivery)) != std::string::npos;
}

/// A machine whose debugger has just been started, with rubbish wherever nothing is promised.
struct Fresh {
  OldMachine machine;
  explicit Fresh(std::uint32_t seed) {
    Dice dice(seed);
    fresh_debugger(machine, dice);
  }
};

/// 50 RAM bytes without a zero, a small number or two letters in a row: the most to type.
Parcel hardest() {
  Parcel parcel = at_64();
  for (Address at = Image::ram_start; at < 64; ++at)
    parcel.image.set(at, static_cast<std::uint8_t>(0x80 + at));
  return parcel;
}

}  // namespace

TEST_CASE("the debugger script writes 64 and 128 bytes and ends with its sign") {
  const Parcel parcel = GENERATE(at_64(), at_128(), crc_64(), balance_64());
  const auto seed = GENERATE(as<std::uint32_t>(), 1, 2, 3);
  Fresh fresh(seed);
  OldMachine& machine = fresh.machine;
  const Delivery delivery = deliver(parcel, Way::debugger_script);
  const std::string printed = debug_session(machine, delivery.content);
  CHECK(holds(machine, parcel.image));
  CHECK(claims(printed, delivery));
  CHECK(machine.guarded);
  CHECK(machine.other_writes == 0);
  CHECK(machine.chip.selected == 0x0D);
  CHECK_FALSE(machine.chip.nmi_masked);
  CHECK(machine.chip.bytes[0x04] == 0x12);
  // 50 or 114 RAM bytes, and the check byte that was spoiled once more.
  CHECK(machine.chip.writes.size() == parcel.image.size() - 14 + 2);
}

TEST_CASE("the debugger script spoils a check byte first and sets it last") {
  Fresh fresh(4);
  debug_session(fresh.machine, deliver(at_64(), Way::debugger_script).content);
  const auto& writes = fresh.machine.chip.writes;
  REQUIRE(writes.size() == 52);
  CHECK(writes.front() == std::pair<Address, std::uint8_t>{0x2E, 0xFF});
  CHECK(writes[1] == std::pair<Address, std::uint8_t>{0x0A, 0x26});
  CHECK(writes[50] == std::pair<Address, std::uint8_t>{0x2F, 0x6C});
  CHECK(writes[51] == std::pair<Address, std::uint8_t>{0x2E, 0x08});
}

TEST_CASE("the debugger script can write the image's time") {
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::image;
  parcel.image.set(0x04, 0x21);
  Fresh fresh(5);
  OldMachine& machine = fresh.machine;
  machine.chip.bytes[0x0A] = 0x00;
  const Delivery delivery = deliver(parcel, Way::debugger_script);
  CHECK(claims(debug_session(machine, delivery.content), delivery));
  CHECK(machine.chip.bytes[0x04] == 0x21);
  CHECK(machine.chip.bytes[0x0A] == 0x26);
  CHECK(machine.chip.bytes[0x0B] == 0x02);
  CHECK(machine.chip.writes[1] == std::pair<Address, std::uint8_t>{0x0B, 0x82});
  CHECK(machine.chip.writes.back() == std::pair<Address, std::uint8_t>{0x0B, 0x02});
}

TEST_CASE("the debugger script takes at most 11 keystrokes a byte") {
  CHECK(deliver(at_64(), Way::debugger_script).keystrokes <= 11 * 50);
  CHECK(deliver(hardest(), Way::debugger_script).keystrokes <= 11 * 50);
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
    debug_session(machine, wrong);
    CHECK(machine.chip.writes.empty());
  }
  std::string swapped = script;
  swapped.replace(data, 9, " 3 f0 41 ");
  OldMachine machine;
  debug_session(machine, swapped);
  CHECK(machine.chip.writes.empty());
}

TEST_CASE("the first line lost or entered elsewhere writes nothing and shows no sign") {
  const Delivery delivery = deliver(at_64(), Way::debugger_script);
  // Without the line that fills memory with INT 3, too.
  const std::string& whole = delivery.content;
  REQUIRE(whole.starts_with("f100l100 cc\r\ne100 "));
  const std::string right = whole.substr(whole.find('\n') + 1), fill = "f100l100 cc\r\n";
  const std::string behind_first = right.substr(right.find('\n') + 1);
  for (const std::string& wrong :
       {behind_first, "e10" + right.substr(4), "e1000" + right.substr(4), fill + behind_first,
        fill + "e10" + right.substr(4), fill + "e1000" + right.substr(4)})
    for (std::uint32_t seed = 0; seed <= 40; ++seed) {
      OldMachine machine;
      Dice dice(seed);
      if (seed > 0) fresh_debugger(machine, dice);  // 0: zeros everywhere
      const std::string printed = debug_session(machine, wrong);
      CHECK(machine.chip.writes.empty());
      CHECK_FALSE(claims(printed, delivery));
    }
}

TEST_CASE("the debugger script entered at any other place writes nothing wrong") {
  const Parcel parcel = at_64();
  const Delivery delivery = deliver(parcel, Way::debugger_script);
  for (unsigned entry = 0x0F0; entry < 0x1A0; ++entry) {
    if (entry == 0x100) continue;
    Fresh fresh(entry);
    std::string script = delivery.content;
    script.replace(script.find("g=100"), 5, fmt::format("g={:x}", entry));
    const std::string printed = debug_session(fresh.machine, script);
    INFO("entered at " << entry << ", " << fresh.machine.chip.writes.size() << " writes");
    if (claims(printed, delivery)) CHECK(holds(fresh.machine, parcel.image));
    CHECK((fresh.machine.chip.writes.empty() || holds(fresh.machine, parcel.image)));
  }
}

TEST_CASE("the sign of a debugger script is never what empty registers show") {
  Parcel parcel = at_64();
  const auto filling =
      GENERATE(as<std::pair<int, int>>(), std::pair{0x03, 0xC6}, std::pair{0xF3, 0xD9});
  // Of these two (found by Python's binascii.crc_hqx) the sign would be 0000h.
  parcel.image.set(0x3E, static_cast<std::uint8_t>(filling.first));
  parcel.image.set(0x3F, static_cast<std::uint8_t>(filling.second));
  const Delivery delivery = deliver(parcel, Way::debugger_script);
  CHECK(delivery.sign != 0x0000);
  Fresh fresh(8);
  CHECK(claims(debug_session(fresh.machine, delivery.content), delivery));
  CHECK(holds(fresh.machine, parcel.image));
  CHECK(fresh.machine.chip.writes.size() == 52);  // one byte once more
}

TEST_CASE("2,000 random slips of the debugger script never write a wrong byte as right", "[long]") {
  const Parcel parcel = at_64();
  const Delivery delivery = deliver(parcel, Way::debugger_script);
  Dice dice(26);
  std::size_t pointed = 0, harmless = 0;
  for (std::uint32_t i = 0; i < 2000; ++i) {
    const Slip slip = random_slip(delivery.content, dice);
    OldMachine machine;
    fresh_debugger(machine, dice);
    const std::string printed = debug_session(machine, slip.text);
    INFO(slip.kind << " in line " << slip.line + 1 << "\n" << slip.text << printed);
    if (claims(printed, delivery)) {
      CHECK(holds(machine, parcel.image));
      ++harmless;
    } else {
      CHECK(machine.chip.writes.empty());
      if (printed.find("^ Error") != std::string::npos) ++pointed;
    }
  }
  CHECK(harmless == 348);
  CHECK(pointed == 876);  // docs/figures.md
}

TEST_CASE("500 random slips of the debugger script for a balance byte write nothing", "[long]") {
  const Parcel parcel = balance_64();
  const Delivery delivery = deliver(parcel, Way::debugger_script);
  Dice dice(30);
  for (std::uint32_t i = 0; i < 500; ++i) {
    const Slip slip = random_slip(delivery.content, dice);
    OldMachine machine;
    fresh_debugger(machine, dice);
    const std::string printed = debug_session(machine, slip.text);
    INFO(slip.kind << " in line " << slip.line + 1 << "\n" << slip.text << printed);
    if (claims(printed, delivery))
      CHECK(holds(machine, parcel.image));
    else
      CHECK(machine.chip.writes.empty());
  }
}

TEST_CASE("the debugger script shows the byte that did not take") {
  const Delivery delivery = deliver(at_64(), Way::debugger_script);
  Fresh fresh(6);
  OldMachine& worn = fresh.machine;
  worn.chip.bytes[0x12] = 0x70;
  worn.cpu.on_out = [&worn, old = worn.cpu.on_out](std::uint16_t port, std::uint8_t value) {
    old(port, port == 0x71 && worn.chip.selected == 0x12 ? value & 0x7F : value);
  };
  const std::string printed = debug_session(worn, delivery.content);
  CHECK_FALSE(claims(printed, delivery));
  const auto shown = printed.find("BP=");
  REQUIRE(shown != std::string::npos);
  CHECK(printed.substr(shown + 5, 2) == "92");  // 80h + 12h
  CHECK(worn.chip.selected == 0x0D);
  Fresh other(7);
  other.machine.chip.writable = false;
  CHECK_FALSE(claims(debug_session(other.machine, delivery.content), delivery));
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
