#include <catch2/catch.hpp>

#include "examining.h"
#include "support/sound_images.h"

using namespace rtcmend;
using Found = std::vector<std::string>;

// That no machine has such memory is common practice, no source. 1Bh is the maker's own, and keeps
// the sum over 10h-2Dh at the 0267h of at_64_bytes().

TEST_CASE("base memory below 128 KiB, or in no steps of 64, is doubtful") {
  // 15h-16h = 0280h is 640.
  CHECK(findings_with({{0x15, 0x7F}, {0x1B, 0x01}}) == Found{"doubt base-memory-odd at 15h-16h"});
  CHECK(findings_with({{0x15, 0x40}, {0x16, 0x00}, {0x1B, 0x42}}) ==
        Found{"doubt base-memory-odd at 15h-16h"});
  CHECK(findings_with({{0x15, 0x80}, {0x16, 0x00}, {0x1B, 0x02}}) == Found{});
  CHECK(findings_with({{0x15, 0x00}, {0x16, 0x02}, {0x1B, 0x80}}) == Found{});
  const Image odd = with_bytes(at_64_image(), {{0x15, 0x27}, {0x16, 0x00}, {0x1B, 0x5B}});
  CHECK(examine(odd, layout_of("at")).sound);
  CHECK(text_of("base-memory-odd", odd) ==
        "Base memory of 39 KiB is what no machine has: banks come to 128 KiB or more, in steps of "
        "64.");
}

TEST_CASE("extended memory of a few KiB is doubtful, none and a block of 64 are not") {
  // 17h-18h = 0180h is 384; 30h-31h, as found, goes along.
  CHECK(findings_with({{0x17, 0x04}, {0x18, 0x00}, {0x1B, 0x7D}, {0x30, 0x04}, {0x31, 0x00}}) ==
        Found{"doubt extended-memory-tiny at 17h-18h"});
  CHECK(findings_with({{0x17, 0x00}, {0x18, 0x00}, {0x1B, 0x81}, {0x30, 0x00}, {0x31, 0x00}}) ==
        Found{});
  CHECK(findings_with({{0x17, 0x40}, {0x18, 0x00}, {0x1B, 0x41}, {0x30, 0x40}, {0x31, 0x00}}) ==
        Found{});
}

TEST_CASE("display and keyboard both off are doubtful in the AT class alone") {
  // RBIL61 C0019: 14h bits 3 and 2.
  CHECK(findings_with({{0x14, 0x01}, {0x1B, 0x0C}}) == Found{"doubt display-keyboard-off at 14h"});
  CHECK(findings_with({{0x14, 0x05}, {0x1B, 0x08}}) == Found{});
  // The CRC class's own set-up leaves both off (measured on 7 of 7 images): 14h = 01h here, and
  // CRC-16/IBM-3740 over 10h-31h is then 3058h by Python's binascii.crc_hqx(bytes, 0xFFFF).
  CHECK(found(with_bytes(crc_64_image(), {{0x14, 0x01}, {0x32, 0x30}, {0x33, 0x58}}),
              "crc+slots-19") == Found{});
}

TEST_CASE("a blank memory describes no machine") {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  for (std::size_t at = 0x0E; at < bytes.size(); ++at) bytes[at] = 0x00;
  for (const std::string& line : found(Image(bytes))) {
    CAPTURE(line);
    CHECK(line.find("display-keyboard-off") == std::string::npos);
    CHECK(line.find("base-memory-odd") == std::string::npos);
  }
}

TEST_CASE("a disk that its type says was entered by hand, and was not, is doubtful once") {
  // Type 47 at 19h (2Fh, 08h more than 27h), 1Bh-22h empty (RBIL61 CMOS 1Bh-22h). 0267h + 08h.
  const Layout layout = built_in_layout("at+disks-1b-short");
  const Image empty = with_bytes(at_64_image(), {{0x19, 0x2F}, {0x2F, 0x6F}});
  const Examination examination = examine(empty, layout);
  CHECK(briefly(examination.findings) == Found{"doubt disk-not-entered at 1Bh-1Dh, 22h"});
  CHECK(examination.sound);
  CHECK(examination.findings.front().text ==
        "The disk's type says that it was entered by hand, yet disk_0_cylinders, disk_0_heads, "
        "disk_0_sectors are 0: nothing is entered.");
  // 615 cylinders, 4 heads, 17 sectors: 67h + 02h + 04h + 11h = 7Eh; 026Fh + 7Eh = 02EDh.
  CHECK(briefly(examine(with_bytes(
                            empty,
                            {{0x1B, 0x67}, {0x1C, 0x02}, {0x1D, 0x04}, {0x22, 0x11}, {0x2F, 0xED}}),
                        layout)
                    .findings) == Found{});
  // 17 heads are more than any such disk has: still a fault. 026Fh + 8Bh = 02FAh.
  CHECK(briefly(examine(with_bytes(
                            empty,
                            {{0x1B, 0x67}, {0x1C, 0x02}, {0x1D, 0x11}, {0x22, 0x11}, {0x2F, 0xFA}}),
                        layout)
                    .findings) == Found{"fault field-illegal at 1Dh"});
}
