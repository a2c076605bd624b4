#include <catch2/catch.hpp>

#include "hand_images.h"

using namespace rtcmend;
using Ids = std::vector<std::string>;

namespace {

// CRC-16/IBM-3740 of the 34 bytes 10h-31h by Python's binascii.crc_hqx(bytes, 0xFFFF).
Image with_slots() {
  return typed_in(64,
                  "00 00 "
                  "40 27 00 40 0D 80 02 80 01 FF EE DD 6C 00 00 5A "
                  "8E 01 02 03 04 00 00 00 00 00 00 00 00 00 00 00 "
                  "00 00 E5 CD 00 80 01 20");
}

Image with_copy() {
  return typed_in(64,
                  "00 00 "
                  "44 23 05 40 4D 80 02 00 08 00 00 00 00 00 00 00 "
                  "00 00 00 00 00 00 00 00 00 00 08 44 23 05 11 00 "
                  "80 03 41 E4 00 00 08 19");
}

// 15h to 3Fh sum to 0A8Eh, and 8Eh + 1Ch = AAh.
Image balanced() {
  return typed_in(64,
                  "30 09 "
                  "15 14 05 31 1C 0D 1C 07 22 FF FF FF FF FF FF FF "
                  "FF 0A 0A 20 07 01 E3 E3 42");
}

}  // namespace

TEST_CASE("the CRC class keeps its CRC over 10-31 high byte first at 32h") {
  // Measured: 8 of 8 images of real machines; RBIL61 CMOS 32h, 33h prints the other order.
  const Layout layout = built_in_layout("crc+slots-19");
  CHECK(holding(layout, with_slots()) == Ids{"crc-10-31"});
  CHECK(resealed(layout, with_slots()) == with_slots());
  REQUIRE(layout.checks.size() == 1);
  CHECK(layout.checks[0].order == Order::high_first);
  CHECK(layout.checks[0].source.find("RBIL61") != std::string::npos);
}

TEST_CASE("the check bytes of the CRC class the other way round do not hold") {
  Image image = with_slots();
  image.set(0x32, 0xCD);
  image.set(0x33, 0xE5);
  CHECK(holding(built_in_layout("crc+slots-19"), image) == Ids{});
}

TEST_CASE("the CRC class has whole bytes for disk types, adapter ids and option bytes") {
  // RBIL61 CMOS 11h, 12h, 19h-24h, 35h-37h; C0017.
  const Layout layout = built_in_layout("crc+slots-19");
  const Image image = with_slots();
  CHECK(says(layout, "disk_0_type", image) == "39");
  CHECK(says(layout, "slot_0_adapter", image) == "EEFF");
  CHECK(says(layout, "slot_1_adapter", image) == "6CDD");
  CHECK(says(layout, "slot_2_adapter", image) == "0000");
  CHECK(says(layout, "slot_3_adapter", image) == "8E5A");
  CHECK(says(layout, "slot_0_options", image) == "01020304");
  CHECK(says(layout, "extended_memory_found_kib", image) == "384 KiB");
  CHECK(says(layout, "century", image) == "20");
  CHECK(says(layout, "cell_good", image) == "yes");
  CHECK(says(layout, "typematic_fast", image) == "no");
  CHECK(says(layout, "power_on_password", image) == "not set");
}

TEST_CASE("the smaller CRC machines keep a second copy at 29-2D") {
  // Measured on 2 of 2 images of real machines; no published source.
  const Layout layout = built_in_layout("crc+copy-29");
  const Image image = with_copy();
  CHECK(holding(layout, image) == Ids{"crc-10-31"});
  CHECK(resealed(layout, image) == image);
  CHECK(says(layout, "extended_memory_copy_kib", image) == "2048 KiB");
  CHECK(says(layout, "floppy_a_copy", image) == "1.44M");
  CHECK(says(layout, "floppy_b_copy", image) == "1.44M");
  CHECK(says(layout, "disk_0_type_copy", image) == "35");
  CHECK(says(layout, "disk_1_type_copy", image) == "5");
  CHECK(layout.field("slot_0_adapter") == nullptr);
}

TEST_CASE("the copy follows, and 2E-31 are left to the machine") {
  const Layout layout = built_in_layout("crc+copy-29");
  for (const auto& [copy, original] : {std::pair("extended_memory_copy_kib", "extended_memory_kib"),
                                       {"floppy_a_copy", "floppy_a"},
                                       {"floppy_b_copy", "floppy_b"},
                                       {"disk_0_type_copy", "disk_0_type"},
                                       {"disk_1_type_copy", "disk_1_type"},
                                       {"extended_memory_found_kib", "extended_memory_kib"}}) {
    INFO(copy);
    const Field& field = layout.need_field(copy);
    REQUIRE(field.follows);
    CHECK(field.follows->how == Follows::How::same);
    CHECK(field.follows->of == Ids{original});
  }
  for (const Address at : to_addresses({0x2E, 0x31})) CHECK(layout.fields_at(at).empty());
  REQUIRE(layout.after_composing.size() == 1);
  CHECK(layout.after_composing[0].find("set them again") != std::string::npos);
}

TEST_CASE("the balance class makes 14-3F come out at AA") {
  // RBIL61 CMOS 14h; 2 of 2 images of real machines.
  const Layout layout = built_in_layout("balance");
  CHECK(holding(layout, balanced()) == Ids{"balance-14-3f"});
  CHECK(resealed(layout, balanced()) == balanced());
}

TEST_CASE("the balance class names every byte from 0E up") {
  // RBIL61, CMOS 0Eh-3Fh of that maker; C0027 is the table of 23h, its bits are from memory.
  const Layout layout = built_in_layout("balance");
  const Image image = balanced();
  CHECK(says(layout, "last_used", image) == "300915140531");
  CHECK(says(layout, "enter_key", image) == "1C0D");
  CHECK(says(layout, "delete_key", image) == "2207");
  CHECK(says(layout, "fire_1", image) == "FFFF");
  CHECK(says(layout, "mouse_2", image) == "FFFF");
  CHECK(says(layout, "mouse_scale_x", image) == "10");
  CHECK(says(layout, "display", image) == "colour-80");
  CHECK(says(layout, "two_floppies", image) == "no");
  CHECK(says(layout, "attribute", image) == "07");
  CHECK(says(layout, "ram_disk_kib", image) == "2 KiB");
  CHECK(says(layout, "serial_0_setup", image) == "E3");
  CHECK(says(layout, "free_28", image) == "4200000000000000");
  for (std::size_t at = 0x0E; at < 0x40; ++at) {
    INFO(at);
    const auto address = static_cast<Address>(at);
    CHECK((at == 0x14 || !layout.fields_at(address).empty()));
  }
}
