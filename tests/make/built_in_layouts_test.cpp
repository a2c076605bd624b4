#include <catch2/catch.hpp>

#include "judge/examine.h"
#include "layout/library.h"
#include "make/amend.h"
#include "make/compose.h"

using namespace rtcmend;

namespace {

Description described(std::vector<std::pair<std::string, Value>> set) {
  Description description;
  description.clock = DateTime{2031, 5, 14, 9, 30, 0};
  description.set = std::move(set);
  return description;
}

std::vector<std::string> faults(const Image& image, const Layout& layout) {
  std::vector<std::string> all;
  for (const Finding& finding : examine(image, layout).findings)
    if (finding.severity() == Severity::fault)
      all.push_back(std::string(finding.id()) + ": " + finding.text);
  return all;
}

}  // namespace

TEST_CASE("every built-in layout composes a sound image from its defaults") {
  for (const std::string& id : built_in_layouts()) {
    if (id == "chip" || id.starts_with("crc")) continue;  // nothing to compose, or no default but 0
    INFO(id);
    const Layout layout = built_in_layout(id);
    const Image image = compose(described({}), layout);
    CHECK(faults(image, layout) == std::vector<std::string>{});
    CHECK(examine(image, layout).sound);
  }
}

TEST_CASE("every layout with floppies and disks takes them and stays sound") {
  for (const std::string& id : built_in_layouts()) {
    const Layout layout = built_in_layout(id);
    if (layout.field("floppy_a") == nullptr) continue;
    INFO(id);
    const Image image = compose(
        described({{"floppy_a", "1.44M"}, {"disk_0_type", 17}, {"extended_memory_kib", 1024}}),
        layout);
    CHECK(faults(image, layout) == std::vector<std::string>{});
    CHECK(image[0x10] == 0x40);  // RBIL61 CMOS 10h
  }
}

TEST_CASE("a composed image of the smaller CRC machines carries the copy") {
  // Measured on 2 of 2 images of real machines; no published source.
  const Layout layout = built_in_layout("crc+copy-29");
  const Image image = compose(
      described({{"floppy_a", "1.44M"}, {"disk_0_type", 35}, {"extended_memory_kib", 2048}}),
      layout);
  CHECK(image[0x29] == 0x00);
  CHECK(image[0x2A] == 0x08);
  CHECK(image[0x2B] == 0x40);
  CHECK(image[0x2C] == 0x23);
  CHECK(image[0x2D] == 0x00);
  CHECK(image[0x35] == 0x00);
  CHECK(image[0x36] == 0x08);
  for (const Address at : to_addresses({0x2E, 0x31})) CHECK(image[at] == 0x00);
}

TEST_CASE("amending the smaller CRC machines moves the copy and keeps 2E-31") {
  const Layout layout = built_in_layout("crc+copy-29");
  Image image = compose(described({{"floppy_a", "1.44M"}}), layout);
  image.set(0x2E, 0x11);
  image.set(0x31, 0x03);
  const Image changed = amend(image, layout, {{"floppy_a", Value("720K")}});
  CHECK(changed[0x10] == 0x30);
  CHECK(changed[0x2B] == 0x30);
  CHECK(changed[0x2E] == 0x11);
  CHECK(changed[0x31] == 0x03);
  CHECK(examine(changed, layout).sound);
}

TEST_CASE("a copy that differs is reported") {
  const Layout layout = built_in_layout("crc+copy-29");
  Image image = compose(described({{"disk_0_type", 35}}), layout);
  image.set(0x2C, 0x22);
  bool reported = false;
  for (const Finding& finding : examine(image, layout).findings)
    if (finding.id() == "relation-broken" &&
        finding.text.find("disk_0_type_copy") != std::string::npos)
      reported = true;
  CHECK(reported);
}

TEST_CASE("a composed balance image has the defaults that its table prints") {
  // RBIL61, CMOS 15h-27h of that maker; words low byte first is measured.
  const Layout layout = built_in_layout("balance");
  const Image image = compose(described({}), layout);
  CHECK(image[0x15] == 0x0D);
  CHECK(image[0x16] == 0x1C);
  CHECK(image[0x17] == 0x07);
  CHECK(image[0x18] == 0x22);
  for (const Address at : to_addresses({0x19, 0x20})) CHECK(image[at] == 0xFF);
  CHECK(image[0x21] == 0x0A);
  CHECK(image[0x24] == 0x07);
  CHECK(image[0x26] == 0xE3);
  // 1C + 0D + 22 + 07 + 8 x FF + 0A + 0A + 20 + 07 + E3 + E3 = A4Bh, and 4Bh + 5Fh = AAh.
  CHECK(image[0x14] == 0x5F);
}
