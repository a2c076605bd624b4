#include "end_to_end/standings.h"

#include <initializer_list>

#include "support/sound_images.h"

namespace rtcmend::test {

namespace {

using Bytes = std::initializer_list<std::pair<Address, std::uint8_t>>;

Image at(Bytes bytes) {
  return with_bytes(at_64_image(), bytes);
}

Image crc(Bytes bytes) {
  return with_bytes(crc_64_image(), bytes);
}

Image all(std::uint8_t value) {
  return Image(std::vector<std::uint8_t>(64, value));
}

/// The clock of at_64_image(), and every RAM byte the same.
Image ram(std::uint8_t value) {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  for (std::size_t i = 0x0E; i < bytes.size(); ++i) bytes[i] = value;
  return Image(bytes);
}

/// The defaults of RBIL61 CMOS 15h-27h. 15h-3Fh come to 0A4Bh, and the low byte of AAh - 4Bh is
/// 5Fh.
Image balance(Bytes more) {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  for (std::size_t i = 0x0E; i < bytes.size(); ++i) bytes[i] = 0x00;
  const std::uint8_t keys[] = {0x5F, 0x0D, 0x1C, 0x07, 0x22, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF,
                               0xFF, 0xFF, 0xFF, 0x0A, 0x0A, 0x20, 0x07, 0x00, 0xE3, 0xE3};
  for (std::size_t i = 0; i < std::size(keys); ++i) bytes[0x14 + i] = keys[i];
  return with_bytes(Image(bytes), more);
}

/// The AT machine on a chip of 128 bytes, its upper half with a word at 40h and the sum of 40h-7Dh.
Image large(Bytes more) {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  bytes.resize(128, 0x00);
  return with_bytes(with_bytes(Image(bytes), {{0x40, 0x12}, {0x41, 0x34}, {0x7F, 0x46}}), more);
}

constexpr const char* good = "trusted proven right";
constexpr const char* unset = "trusted proven unset";
constexpr const char* stopped = "trusted proven stopped";
constexpr const char* broken = "trusted broken right";
constexpr const char* misread_stopped = "misread broken stopped";

// What is a fault, a doubt or a note follows what firmware does (measured on 64 images that real
// firmware saved; no published source). What the bytes mean: RBIL61 CMOS.LST; registers A to D:
// DS12885. CRCs are those of
// Python's binascii.crc_hqx(bytes, 0xFFFF). Sums begin from the 0267h of at_64_bytes(); 1Bh is the
// maker's own byte.

std::vector<StandingRow> clock_rows() {
  return {
      {"nothing is wrong", "at", at({}), good, 0, "", "kic"},
      {"minutes 7Ah are not BCD, and the test looks at them", "at", at({{0x02, 0x7A}}), unset, 1,
       "163", "kc"},
      {"seconds end at 59", "at", at({{0x00, 0x60}}), unset, 1, "163", "kc"},
      {"hours end at 23", "at", at({{0x04, 0x24}}), unset, 1, "163", "kc"},
      {"an afternoon's bit has no place on a 24-hour dial", "at", at({{0x04, 0x85}}), unset, 1,
       "163", "kc"},
      {"no month has a day 0, and no test looks", "at", at({{0x07, 0x00}}), unset, 1, "", "kc"},
      {"no month has a day 32", "at", at({{0x07, 0x32}}), unset, 1, "", "kc"},
      {"no year has a month 13", "at", at({{0x08, 0x13}}), unset, 1, "", "kc"},
      {"April ends at 30", "at", at({{0x07, 0x31}, {0x08, 0x04}}), unset, 1, "", "kc"},
      {"2031 is no leap year", "at", at({{0x07, 0x29}, {0x08, 0x02}}), unset, 1, "", "kc"},
      {"a year of 3Ah is not BCD", "at", at({{0x09, 0x3A}}), unset, 1, "", "kc"},
      {"no firmware asks for the weekday: 0", "at", at({{0x06, 0x00}}), good, 0, "", "kic"},
      {"no firmware asks for the weekday: Monday", "at", at({{0x06, 0x02}}), good, 0, "", "kic"},
      {"a century that is not BCD is a doubt", "at", at({{0x32, 0x2A}}), good, 0, "", "kic"},
      {"a century of 21 is a doubt", "at", at({{0x32, 0x21}}), good, 0, "", "kic"},
      {"a 12-hour dial in the morning says the same", "at", at({{0x0B, 0x00}, {0x05, 0x12}}), good,
       0, "", "kic"},
      {"20h on a 12-hour dial: firmware reads it, the chip does not count on", "at",
       at({{0x0B, 0x00}, {0x05, 0x12}, {0x04, 0x20}}), unset, 1, "", "kc"},
      {"9 PM on a 12-hour dial is what it says", "at",
       at({{0x0B, 0x00}, {0x05, 0x12}, {0x04, 0x89}}), good, 0, "", "kic"},
      {"binary digits are a doubt", "at", at({{0x0B, 0x06}}), good, 0, "", "kic"},
      {"59h is 89 in binary, and 59 to firmware", "at", at({{0x0B, 0x06}, {0x02, 0x59}}), unset, 1,
       "", "kc"},
      {"DV 000: the oscillator is off", "at", at({{0x0A, 0x06}}), stopped, 1, "163", "kc"},
      {"DV 110: the chain is held", "at", at({{0x0A, 0x66}}), stopped, 1, "163", "kc"},
      {"DV 111: the chain is held", "at", at({{0x0A, 0x76}}), stopped, 1, "163", "kc"},
      {"SET is on", "at", at({{0x0B, 0x82}}), stopped, 1, "163", "kc"},
      {"what stands still is worse than what is unset", "at", at({{0x0B, 0x82}, {0x02, 0x7A}}),
       stopped, 1, "163", "kc"},
      {"an update under way is a note", "at", at({{0x0A, 0xA6}}), good, 0, "", "kic"},
      {"daylight saving is a doubt", "at", at({{0x0B, 0x03}}), good, 0, "", "kic"},
      {"reserved bits are a doubt", "at", at({{0x0C, 0x01}}), good, 0, "", "kic"},
      {"VRT 0: all three stand, and the cell is a fault", "at", at({{0x0D, 0x00}}), good, 1, "161",
       "kic"},
  };
}

std::vector<StandingRow> settings_rows() {
  return {
      {"one bit more than the sum says: mended by sealing", "at", at({{0x15, 0x90}}), broken, 1,
       "162", "c"},
      {"the check's two bytes swapped", "at", at({{0x2E, 0x67}, {0x2F, 0x02}}), broken, 1, "162",
       "c"},
      {"a broken check and a clock that stands", "at", at({{0x15, 0x90}, {0x0A, 0x06}}),
       "trusted broken stopped", 1, "162 163", "c"},
      {"zeros have a right sum and hold nothing", "at", ram(0x00), broken, 1, "162", ""},
      {"a RAM of FFh was cleared, and firmware reads every flag and code in it", "at", ram(0xFF),
       broken, 1, "161 162 163 164 601 1780", ""},
      {"a floppy code that no list has, under a check that holds: 0267h + 9", "at",
       at({{0x10, 0x49}, {0x2F, 0x70}}), good, 0, "", "kic"},
      {"the same where no check vouches, and sealing does not make it one", "at",
       at({{0x10, 0x49}}), broken, 1, "162 601", ""},
      {"base memory of 32896 KiB, sealed: 0267h + 7Eh", "at", at({{0x16, 0x80}, {0x2F, 0xE5}}),
       broken, 1, "", ""},
      {"F sends the reader to 19h, which holds nothing: 0267h - 27h", "at",
       at({{0x19, 0x00}, {0x2F, 0x40}}), broken, 1, "1780 1790", ""},
      {"F sends the reader to 1Ah, which holds nothing: 0267h + 0Fh", "at",
       at({{0x12, 0xFF}, {0x2F, 0x76}}), broken, 1, "1781 1791", ""},
      {"a type left behind is a note", "at", at({{0x12, 0x20}, {0x1B, 0xD0}}), good, 0, "", "kic"},
      {"256 KiB found where 384 are configured", "at", at({{0x30, 0x00}}), good, 0, "164", "kic"},
      {"firmware counted other memory: 0Eh bit 4", "at", at({{0x0E, 0x10}}), good, 0, "164", "kic"},
      {"firmware noted lost power: 0Eh bit 7", "at", at({{0x0E, 0x80}}), good, 0, "161", "kic"},
      {"firmware noted a wrong check: 0Eh bit 6", "at", at({{0x0E, 0x40}}), good, 0, "162", "kic"},
      {"firmware noted other equipment: 0Eh bit 5", "at", at({{0x0E, 0x20}}), good, 0, "162",
       "kic"},
      {"firmware noted the disk: 0Eh bit 3", "at", at({{0x0E, 0x08}}), good, 0, "1780", "kic"},
      {"firmware noted the time: 0Eh bit 2", "at", at({{0x0E, 0x04}}), good, 0, "163", "kic"},
      {"bits 1-0 of 0Eh are the maker's own in the AT class", "at", at({{0x0E, 0x03}}), good, 0, "",
       "kic"},
      {"two drives counted, one typed: firmware does not mind; 0267h + 40h", "at",
       at({{0x14, 0x4D}, {0x2F, 0xA7}}), good, 0, "", "kic"},
      {"a drive typed, none said to be fitted", "at", at({{0x14, 0x0C}, {0x1B, 0x01}}), good, 0, "",
       "kic"},
      {"39 KiB, display and keyboard off: doubts; 0200h", "at",
       at({{0x14, 0x01}, {0x15, 0x27}, {0x16, 0x00}, {0x2F, 0x00}}), good, 0, "", "kic"},
      {"4 KiB of extended memory", "at",
       at({{0x17, 0x04}, {0x18, 0x00}, {0x1B, 0x7D}, {0x30, 0x04}, {0x31, 0x00}}), good, 0, "",
       "kic"},
      {"display and keyboard off", "at", at({{0x14, 0x01}, {0x1B, 0x0C}}), good, 0, "", "kic"},
      {"type 47 and nothing entered: 0267h + 08h", "at+disks-1b-short",
       at({{0x19, 0x2F}, {0x2F, 0x6F}}), good, 0, "", "kic"},
      {"17 heads: 026Fh + 8Bh", "at+disks-1b-short",
       at({{0x19, 0x2F}, {0x1B, 0x67}, {0x1C, 0x02}, {0x1D, 0x11}, {0x22, 0x11}, {0x2F, 0xFA}}),
       broken, 1, "", ""},
      {"two sums, both right: 12h + 34h = 46h", "at+sum-40-7d", large({}), good, 0, "", "kic"},
      {"the second sum one too high", "at+sum-40-7d", large({{0x7F, 0x47}}), broken, 1, "162", "c"},
  };
}

std::vector<StandingRow> other_rows() {
  return {
      {"FFh everywhere: nothing answered", "at", all(0xFF), misread_stopped, 1, "", ""},
      {"00h everywhere: the bus was held low", "at", all(0x00), misread_stopped, 1, "", ""},
      {"55h everywhere: one address over and over", "at", all(0x55), misread_stopped, 1, "", ""},
      {"a CRC machine with nothing wrong", "crc+slots-19", crc({}), good, 0, "", "kic"},
      {"its firmware tells a clock that stands by two codes", "crc+slots-19", crc({{0x0A, 0x06}}),
       stopped, 1, "163 167", "kc"},
      {"a flipped bit under the CRC", "crc+slots-19", crc({{0x15, 0x90}}), broken, 1, "162", "c"},
      {"bits 1-0 of 0Eh speak of adapters here", "crc+slots-19", crc({{0x0E, 0x03}}), good, 0,
       "165 166", "kic"},
      {"its own set-up leaves display and keyboard off", "crc+slots-19",
       crc({{0x14, 0x01}, {0x32, 0x30}, {0x33, 0x58}}), good, 0, "", "kic"},
      {"floppy code 8, under a CRC that holds", "crc+slots-19",
       crc({{0x10, 0x80}, {0x32, 0xBA}, {0x33, 0x93}}), good, 0, "", "kic"},
      {"an 8086 machine with nothing wrong", "balance", balance({}), good, 0, "", "kic"},
      {"its balance one too high", "balance", balance({{0x28, 0x01}}), broken, 1, "162", "c"},
      {"its month cannot be", "balance", balance({{0x08, 0x13}}), unset, 1, "", "kc"},
      {"without a layout nothing proves the settings", "chip", at({}), "trusted unproven right", 1,
       "", ""},
      {"nor does a clock that stands", "chip", at({{0x0A, 0x06}}), "trusted unproven stopped", 1,
       "163", ""},
      {"of a machine that is no PC, a 12-hour dial is its own affair", "chip",
       at({{0x0B, 0x00}, {0x05, 0x12}}), "trusted unproven right", 1, "", ""},
      {"the clock's bytes were not dumped", "at", without(at({}), {0x00, 0x0D}), unset, 1, "",
       "kc"},
  };
}

}  // namespace

std::vector<StandingRow> standing_rows() {
  std::vector<StandingRow> rows = clock_rows();
  for (const auto& more : {settings_rows(), other_rows()})
    rows.insert(rows.end(), more.begin(), more.end());
  return rows;
}

}  // namespace rtcmend::test
