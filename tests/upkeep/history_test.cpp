#include "upkeep/history.h"

#include <catch2/catch.hpp>

#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

const Layout& at_64() {
  static const Layout layout = built_in_layout("at");
  return layout;
}

HistoryItem item(const char* name, std::optional<Image> image) {
  return {name, date_in_name(name).value(), true, std::move(image), {}, {}};
}

/// Without its floppy drive: 40h less in 10h and in the sum (RBIL61 CMOS 2Eh: 0267h to 0227h).
Image without_floppy() {
  return with_bytes(at_64_image(), {{0x10, 0x00}, {0x2F, 0x27}});
}

}  // namespace

TEST_CASE("a date at the start of a name is read in the ways people write it") {
  const DateTime day{2031, 5, 14, 0, 0, 0}, minute{2031, 5, 14, 9, 30, 0};
  CHECK(date_in_name("2031-05-14.bin") == day);
  CHECK(date_in_name("20310514 after the move.txt") == day);
  CHECK(date_in_name("2031-05-14T0930.bin") == minute);
  CHECK(date_in_name("20310514-0930-b.bin") == minute);
  CHECK_FALSE(date_in_name("fennel.bin"));
  CHECK_FALSE(date_in_name("2031-13-14.bin"));
  CHECK_FALSE(date_in_name("-2031.bin"));
}

TEST_CASE("dumps stand in the order of their dates, each held against the one before") {
  const History told = history(
      {item("2033-01-02.bin", without_floppy()), item("2031-05-14.bin", at_64_image())}, at_64());
  REQUIRE(told.entries.size() == 2);
  CHECK(told.entries[0].item.name == "2031-05-14.bin");
  CHECK_FALSE(told.entries[0].since);
  const HistoryEntry& second = told.entries[1];
  CHECK(second.since == 0);
  REQUIRE(second.changes.size() == 1);
  CHECK(second.changes[0].id == "floppy_a");
  CHECK(second.changes[0].before == "1.44M");
  CHECK(second.changes[0].after == "none");
  CHECK(second.other_bytes.empty());
  CHECK(told.last_good == 1);
  CHECK(told.latest_is_good);
}

TEST_CASE("the suspects of a damaged dump are weighed by the last good one before it") {
  // 12h, F0h, lost bit 4: a sum cannot tell where a bit of this weight went (RBIL61 CMOS 2Eh).
  const Image damaged = with_bytes(at_64_image(), {{0x12, 0xE0}});
  const History alone = history({item("2033-01-02.bin", damaged)}, at_64());
  const History told =
      history({item("2031-05-14.bin", at_64_image()), item("2033-01-02.bin", damaged)}, at_64());
  const HistoryEntry& entry = told.entries[1];
  REQUIRE_FALSE(entry.suspects.empty());
  CHECK(entry.weighed_with == 0);
  CHECK(repaired(damaged, entry.suspects.front()) == at_64_image());
  REQUIRE_FALSE(alone.entries[0].suspects.empty());
  CHECK_FALSE(alone.entries[0].weighed_with);
  CHECK(entry.suspects.front().odds > alone.entries[0].suspects.front().odds);
  CHECK(told.entries[0].suspects.empty());
}

TEST_CASE("a dump that was misread has no suspects: no small repair makes up for that") {
  HistoryItem misread = item("2033-01-02.bin", with_bytes(at_64_image(), {{0x12, 0xE0}}));
  misread.reading = {{FindingKind::data_bit_stuck, {}, "Data bit 4 is 0 in every byte.", {}, {}}};
  const History told = history({item("2031-05-14.bin", at_64_image()), misread}, at_64());
  CHECK(told.entries[1].suspects.empty());
}

TEST_CASE("a damaged dump is passed over for the last good image") {
  const Image damaged = with_bytes(at_64_image(), {{0x10, 0x00}});
  const History told =
      history({item("2031-05-14.bin", at_64_image()), item("2033-01-02.bin", damaged)}, at_64());
  CHECK(told.last_good == 0);
  CHECK_FALSE(told.latest_is_good);
  CHECK_FALSE(told.entries[1].faults.empty());
}

TEST_CASE("notes stand between the dumps, and what is too small is kept with its problem") {
  HistoryItem note = item("2032-02-03.note", std::nullopt);
  note.note = "new cell";
  const Image large(std::vector<std::uint8_t>(128, 0x55));
  const History told = history({item("2033-01-02.bin", large), note, item("2031-05-14.bin", large),
                                item("2032-01-01.bin", at_64_image())},
                               built_in_layout("at+sum-40-7d"));
  REQUIRE(told.entries.size() == 4);
  CHECK(told.entries[1].item.problem == "it holds 64 bytes, and the layout at+sum-40-7d needs 128");
  CHECK(told.entries[2].item.note == "new cell");
  CHECK(told.entries[3].since == 0);
}

TEST_CASE("bytes of no setting that changed are named") {
  // 3Dh belongs to nothing in at.
  const History told = history({item("2031-05-14.bin", at_64_image()),
                                item("2031-05-15.bin", with_bytes(at_64_image(), {{0x3D, 0x5A}}))},
                               at_64());
  CHECK(told.entries[1].other_bytes == Addresses{0x3D});
  CHECK(told.entries[1].changes.empty());
}

TEST_CASE("an empty folder has no last good image") {
  CHECK_FALSE(history({}, at_64()).last_good);
}

TEST_CASE("seconds, underscores and names of digits alone are read as well") {
  const DateTime day{2031, 5, 14, 0, 0, 0};
  CHECK(date_in_name("20310514") == day);
  CHECK(date_in_name("2031_05_14 after the move.bin") == day);
  CHECK(date_in_name("2031-05-14T09:30:15.bin") == DateTime{2031, 5, 14, 9, 30, 15});
  CHECK(date_in_name("2031-05-14-1.bin") == day);
  CHECK_FALSE(date_in_name("2031-05-14T09:30:75.bin"));
  CHECK_FALSE(date_in_name("2031-05-1.bin"));
  CHECK_FALSE(date_in_name(""));
}

TEST_CASE("a password that changed is told without its bytes, and one that stayed not at all") {
  const Layout layout = built_in_layout("crc+slots-19");
  // 38h-3Fh are the private area (RBIL61 CMOS 38h), outside the CRC.
  const Image first = with_bytes(crc_64_image(), {{0x38, 0x11}, {0x39, 0x22}});
  const Image second = with_bytes(first, {{0x38, 0x33}});
  const History told =
      history({item("2031-05-14.bin", first), item("2031-05-15.bin", second),
               item("2031-05-16.bin", second), item("2031-05-17.bin", crc_64_image())},
              layout);
  REQUIRE(told.entries[1].changes.size() == 1);
  CHECK(told.entries[1].changes[0].id == "password_area");
  CHECK(told.entries[1].changes[0].before == "set");
  CHECK(told.entries[1].changes[0].after == "set, but another one");
  CHECK(told.entries[2].changes.empty());
  REQUIRE(told.entries[3].changes.size() == 1);
  CHECK(told.entries[3].changes[0].after == "not set");
}

TEST_CASE("two dumps of one day stand in the order of their names") {
  const History told =
      history({item("2031-05-14 b.bin", without_floppy()), item("2031-05-14 a.bin", at_64_image())},
              at_64());
  CHECK(told.entries[0].item.name == "2031-05-14 a.bin");
}

TEST_CASE("a byte that its field does not use now changes no setting") {
  // Type 2 stands in 12h itself; 19h counts for type 15 alone (RBIL61 C0014, C0020).
  const Image first = with_bytes(at_64_image(), {{0x12, 0x20}});
  const Image second = with_bytes(first, {{0x19, 0x28}});
  const History told =
      history({item("2031-05-14.bin", first), item("2031-05-15.bin", second)}, at_64());
  for (const SettingChange& change : told.entries[1].changes) CHECK(change.id != "disk_0_type");
}
