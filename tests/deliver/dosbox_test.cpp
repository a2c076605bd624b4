#include "deliver/dosbox.h"

#include <array>
#include <catch2/catch.hpp>

#include "deliver/samples.h"
#include "deliver/serial_peer.h"
#include "forms/form.h"

namespace rtcmend::test {

namespace {

Addresses differing(const Image& wanted, const Image& found) {
  Addresses differ;
  for (Address at = Image::ram_start; at < wanted.size(); ++at)
    if (wanted.at(at) != found.at(at)) differ.push_back(at);
  return differ;
}

Image chip_in(const Workplace& workplace) {
  return read_dump(workplace.get("ROWS.TXT"), "ROWS.TXT", Form::rows).image;
}

/// An AT-class image that DOSBox can hold: its chip keeps seven bits of a byte, and shows its own
/// drives at 10h, 12h and 19h-2Ch, the century of the day at 32h, and zeros at 39h and 3Ah (seen by
/// trying, no source). No drives, 512 + 1024 KiB; 11h + 03h + 0Dh + 02h + 04h + 55h = 7Ch.
Parcel modest() {
  constexpr std::array<std::uint8_t, 64> bytes{
      0x00, 0x00, 0x00, 0x00, 0x12, 0x00, 0x06, 0x06, 0x05, 0x94, 0x26, 0x02, 0x00,
      0x80, 0x00, 0x00, 0x00, 0x11, 0x00, 0x03, 0x0D, 0x00, 0x02, 0x00, 0x04, 0x00,
      0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00,
      0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x55, 0x00, 0x7C, 0x00, 0x04, 0x20, 0x12,
      0x34, 0x56, 0x78, 0x43, 0x7E, 0x00, 0x00, 0x15, 0x2A, 0x55, 0x66, 0x7F};
  Parcel parcel = at_64();
  parcel.image = Image(bytes);
  return parcel;
}

/// The capture program, told the size: DOSBox's chip has 64 bytes.
void put_capture(const Workplace& workplace) {
  workplace.put("ROWS.COM", capture({64, DiskFormat::m1_44}, Way::dos_program).content);
}

}  // namespace

TEST_CASE("the DOS program writes the chip of DOSBox, and the capture program shows it", "[long]") {
  const Workplace workplace;
  const Parcel parcel = modest();
  workplace.put("MEND.COM", deliver(parcel, Way::dos_program).content);
  workplace.put("KEYS.TXT", "W");
  put_capture(workplace);
  run_in_dosbox(workplace, {"MEND.COM < KEYS.TXT > MEND.TXT", "ROWS.COM > ROWS.TXT"});
  INFO(workplace.get("MEND.TXT"));
  CHECK(differing(parcel.image, chip_in(workplace)) == Addresses{});
  CHECK(workplace.get("MEND.TXT").find("Every byte reads back as it was written.") !=
        std::string::npos);
}

TEST_CASE("the keyboard program, stored as COPY CON stores it, writes the chip of DOSBox",
          "[long]") {
  const Workplace workplace;
  const Parcel parcel = modest();
  workplace.put("MEND.COM", deliver(parcel, Way::keyboard_program).content);
  put_capture(workplace);
  run_in_dosbox(workplace, {"MEND.COM > MEND.TXT", "ROWS.COM > ROWS.TXT"});
  CHECK(differing(parcel.image, chip_in(workplace)) == Addresses{});
  CHECK(workplace.get("MEND.TXT").back() == '+');
}

TEST_CASE("at the prompt of DOSBox the chip is read, written and compared by typing alone",
          "[long]") {
  const Workplace workplace;
  const Parcel parcel = modest();
  workplace.put("MEND.COM", deliver(parcel, Way::keyboard_program).content);
  workplace.put("ROWS.COM", capture({64, DiskFormat::m1_44}, Way::keyboard_program).content);
  run_in_dosbox(workplace,
                {"MEND.COM C > FIRST.TXT", "ROWS.COM > BEFORE.TXT", "MEND.COM > MEND.TXT",
                 "MEND.COM C > AGAIN.TXT", "ROWS.COM > ROWS.TXT"});
  CHECK(workplace.get("FIRST.TXT").back() == '-');
  CHECK(workplace.get("MEND.TXT").back() == '+');
  CHECK(workplace.get("AGAIN.TXT").back() == '+');
  const Image before = read_dump(workplace.get("BEFORE.TXT"), "BEFORE.TXT", std::nullopt).image;
  CHECK(differing(parcel.image, before) != Addresses{});
  CHECK(differing(parcel.image, chip_in(workplace)) == Addresses{});
}

TEST_CASE("the DOS capture program sends the chip of DOSBox down its serial cable", "[long]") {
  const Workplace workplace;
  const Parcel parcel = modest();
  workplace.put("MEND.COM", deliver(parcel, Way::keyboard_program).content);
  put_capture(workplace);
  SerialPeer peer;
  // The last command gives the cable time.
  run_in_dosbox(workplace, {"MEND.COM > MEND.TXT", "ROWS.COM S > SAID.TXT", "ROWS.COM > ROWS.TXT"},
                peer.configuration());
  CHECK(workplace.get("SAID.TXT") == "Sent.\r\n");
  const Image sent = read_dump(peer.received(), "cable", std::nullopt).image;
  CHECK(sent.size() == 64);
  CHECK(differing(parcel.image, sent) == Addresses{});
  CHECK(differing(parcel.image, chip_in(workplace)) == Addresses{});
}

TEST_CASE("a mistyped keyboard program leaves the chip of DOSBox alone", "[long]") {
  const Workplace workplace;
  std::string text = deliver(at_64(), Way::keyboard_program).content;
  text[text.size() - 20] = text[text.size() - 20] == 'A' ? 'B' : 'A';
  workplace.put("MEND.COM", text);
  put_capture(workplace);
  run_in_dosbox(workplace, {"ROWS.COM > BEFORE.TXT", "MEND.COM > MEND.TXT", "ROWS.COM > ROWS.TXT"});
  const Image before = read_dump(workplace.get("BEFORE.TXT"), "BEFORE.TXT", Form::rows).image;
  CHECK(differing(before, chip_in(workplace)) == Addresses{});
  CHECK(workplace.get("MEND.TXT").find_first_of("+-") == std::string::npos);
}

}  // namespace rtcmend::test
