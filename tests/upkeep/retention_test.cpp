#include "upkeep/retention.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "layout/library.h"
#include "layout/load.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

constexpr long long half_an_hour = 1800;

/// The AT-class image, its clock so many minutes later: 09:30 became 10:05 with thirty-five.
Image later(std::uint8_t hours, std::uint8_t minutes) {
  return with_bytes(at_64_image(), {{0x04, hours}, {0x02, minutes}});
}

Image found_after_35_minutes() {
  return later(0x10, 0x05);
}

Retention judged(const Image& found, std::optional<Image> again = std::nullopt) {
  return retention({at_64_image(), found, std::move(again), half_an_hour}, built_in_layout("at"));
}

Image noise() {
  Image image = at_64_image();
  // A multiplicative generator (MINSTD, Park and Miller), as good as an empty chip's bytes.
  std::uint32_t state = 12345;
  for (std::size_t i = 0; i < image.size(); ++i) {
    state = static_cast<std::uint32_t>(state * 48271ULL % 2147483647ULL);
    image.set(static_cast<Address>(i), static_cast<std::uint8_t>(state >> 8));
  }
  return image;
}

Image ram_of(std::uint8_t value) {
  Image image = found_after_35_minutes();
  for (std::size_t i = Image::ram_start; i < image.size(); ++i)
    image.set(static_cast<Address>(i), value);
  return image;
}

}  // namespace

TEST_CASE("a chip that holds is told to hold, its clock as well") {
  const Retention kept = judged(found_after_35_minutes());
  CHECK(kept.what == Retained::everything);
  CHECK(kept.clock == ClockKept::kept);
  CHECK(kept.text ==
        "Kept: every byte that matters came through 30 min without power, and the "
        "clock went on.");
  CHECK(in_plain_words(kept.next).find("over a night") != std::string::npos);
}

TEST_CASE("noise means no cell, a reversed or a flat one") {
  const Retention lost = judged(noise());
  CHECK(lost.what == Retained::nothing);
  CHECK(lost.text.find("not connected, is reversed, or is flat") != std::string::npos);
  CHECK(in_plain_words(lost.next).find("cell pins") != std::string::npos);
  CHECK(judged(ram_of(0x00)).what == Retained::nothing);
}

TEST_CASE("ones in every RAM byte beside a clock that went on point to the RAM-clear pin") {
  const Retention cleared = judged(ram_of(0xFF));
  CHECK(cleared.what == Retained::cleared);
  CHECK(in_plain_words(cleared.next).find("its RAM-clear input") != std::string::npos);
  // Without the clock it is no RAM clear: that leaves the clock alone.
  Image all_ones = ram_of(0xFF);
  for (const Address at : Addresses{0x00, 0x02, 0x04, 0x06, 0x07, 0x08, 0x09})
    all_ones.set(at, 0xFF);
  CHECK(judged(all_ones).what == Retained::nothing);
}

TEST_CASE("a few lost bits are named with what they were") {
  // 15h: 80h became 00h; 33h: 00h became 04h.
  const Retention lost = judged(with_bytes(found_after_35_minutes(), {{0x15, 0x00}, {0x33, 0x04}}));
  CHECK(lost.what == Retained::a_few_bits_lost);
  REQUIRE(lost.bits.size() == 2);
  CHECK(lost.text.find("2 bits of the RAM were lost: 15h bit 7 (1 became 0), 33h bit 2 (0 became "
                       "1)") == 0);
  CHECK(in_plain_words(lost.next).find("Measure the cell") != std::string::npos);
}

TEST_CASE("more than a few bits are told from everything") {
  Image found = found_after_35_minutes();
  // Twenty bytes with one bit each: 20 of 400 bits.
  for (Address at = 0x14; at < 0x28; ++at)
    found.set(at, static_cast<std::uint8_t>(found[at] ^ 0x10));
  const Retention lost = judged(found);
  CHECK(lost.what == Retained::much_lost);
  CHECK(lost.text.find("20 bits of the RAM were lost, in 20 bytes") == 0);
}

TEST_CASE("the clock alone: stood still, held, lost") {
  SECTION("it went on by five minutes of thirty") {
    const Retention stood = judged(later(0x09, 0x35));
    CHECK(stood.what == Retained::clock_lost);
    CHECK(stood.clock == ClockKept::stood_still);
    CHECK(stood.clock_text == "it went on by 5 min only, and the power was off for 30 min");
    CHECK(in_plain_words(stood.next).find("crystal") != std::string::npos);
  }
  SECTION("divider bits") {
    // DS12885: 010 in bits 6-4 is the only pattern that keeps time.
    const Retention off = judged(with_bytes(later(0x09, 0x30), {{0x0A, 0x06}}));
    CHECK(off.what == Retained::clock_lost);
    CHECK(off.clock == ClockKept::off);
    CHECK(off.text.find("(0Ah bits 6-4) are 000") != std::string::npos);
  }
  SECTION("SET") {
    CHECK(judged(with_bytes(later(0x09, 0x30), {{0x0B, 0x82}})).clock_text ==
          "SET (0Bh bit 7) is on, which freezes the clock");
  }
  SECTION("an earlier date") {
    const Retention lost = judged(with_bytes(later(0x00, 0x05), {{0x07, 0x01}, {0x08, 0x01}}));
    CHECK(lost.what == Retained::clock_lost);
    CHECK(lost.clock == ClockKept::lost);
  }
}

TEST_CASE("bytes that changed under a check that holds again were written by the firmware") {
  // 1.44M to none: 40h less in 10h, and in the sum at 2Eh: 0267h becomes 0227h (RBIL61 CMOS 2Eh).
  const Retention rewritten =
      judged(with_bytes(found_after_35_minutes(), {{0x10, 0x00}, {0x2F, 0x27}}));
  CHECK(rewritten.what == Retained::firmware_rewrote);
  CHECK(rewritten.text.find("the firmware wrote 10h, 2Fh itself") != std::string::npos);
  // The check bytes alone, by another rule.
  const Retention other = judged(with_bytes(found_after_35_minutes(), {{0x2F, 0x68}}));
  CHECK(other.what == Retained::firmware_rewrote);
  CHECK(other.text.find("a check of its own at 2Fh") != std::string::npos);
}

TEST_CASE("two reads that differ put the bus before the cell") {
  const Image first = with_bytes(found_after_35_minutes(), {{0x20, 0x08}, {0x25, 0x08}});
  const Image second = with_bytes(found_after_35_minutes(), {{0x2A, 0x08}});
  const Retention unsteady = judged(first, second);
  CHECK(unsteady.what == Retained::changes_by_read);
  CHECK(in_plain_words(unsteady.next).find("data bit 3") != std::string::npos);
  CHECK(judged(first, first).what == Retained::a_few_bits_lost);
}

TEST_CASE("the chip's own word about its cell is passed on") {
  // DS12885: VRT = 0, the cell is exhausted.
  CHECK(judged(with_bytes(found_after_35_minutes(), {{0x0D, 0x00}})).cell_low);
  CHECK_FALSE(judged(found_after_35_minutes()).cell_low);
}

TEST_CASE("the time without power is told in its largest whole unit") {
  const auto words = [](long long seconds) {
    return retention({at_64_image(), at_64_image(), std::nullopt, seconds}, built_in_layout("at"))
        .clock_text;
  };
  CHECK(words(172'800) == "it went on by 0 s only, and the power was off for 2 d");
  CHECK(words(86'400) == "it went on by 0 s only, and the power was off for 1 d");
  CHECK(words(43'200) == "it went on by 0 s only, and the power was off for 12 h");
  CHECK(words(90'000) == "it went on by 0 s only, and the power was off for 25 h");
  CHECK(words(5'400) == "it went on by 0 s only, and the power was off for 90 min");
}

TEST_CASE("after a night without power, a week tells the rest") {
  // 21:35 of the same day: twelve hours and five minutes.
  const Retention kept =
      retention({at_64_image(), later(0x21, 0x35), std::nullopt, 43'200}, built_in_layout("at"));
  CHECK(kept.what == Retained::everything);
  CHECK(kept.text ==
        "Kept: every byte that matters came through 12 h without power, and the clock went on.");
  CHECK(in_plain_words(kept.next) == "See over a week how well it keeps time.");
}

TEST_CASE("a clock that was not meant to run, or cannot be read, is not judged") {
  const Layout layout = built_in_layout("at");
  const auto clock = [&](const Image& wanted, const Image& found) {
    const Retention kept = retention({wanted, found, std::nullopt, 45}, layout);
    CHECK(kept.what == Retained::everything);
    CHECK(kept.text == "Kept: every byte that matters came through 45 s without power.");
    return kept.clock;
  };
  const Image held = with_bytes(at_64_image(), {{0x0B, 0x82}});
  CHECK(clock(held, held) == ClockKept::unknown);
  // The clock bytes unknown before, after, and without register B to read them by (DS12885).
  const Image bare = without(at_64_image(), {0x00, 0x0D});
  CHECK(clock(bare, at_64_image()) == ClockKept::unknown);
  CHECK(clock(at_64_image(), bare) == ClockKept::unknown);
  CHECK_FALSE(retention({bare, bare, std::nullopt, 45}, layout).cell_low);
  CHECK(clock(with_bytes(at_64_image(), {{0x07, 0x45}}),
              with_bytes(at_64_image(), {{0x07, 0x45}})) == ClockKept::unknown);
}

TEST_CASE("a date that cannot be is a lost clock") {
  const Retention lost = judged(with_bytes(found_after_35_minutes(), {{0x07, 0x45}}));
  CHECK(lost.clock == ClockKept::lost);
  CHECK(lost.clock_text == "it says a date or time that cannot be");
}

TEST_CASE("bytes that one side does not know are no loss") {
  const Retention kept = judged(without(found_after_35_minutes(), {0x20, 0x3F}));
  CHECK(kept.what == Retained::everything);
  CHECK(kept.bits.empty());
  // Twelve bytes are known, all of them FFh now, and the clock went on: RAM clear.
  CHECK(judged(without(ram_of(0xFF), {0x20, 0x3F})).what == Retained::cleared);
}

TEST_CASE("without a RAM byte known on both sides nothing can be said") {
  const Layout layout = built_in_layout("at");
  const Image clock_alone = without(at_64_image(), {0x0E, 0x3F});
  CHECK_THROWS_WITH(retention({at_64_image(), clock_alone, std::nullopt, half_an_hour}, layout),
                    "compare: no RAM byte is known on both sides");
  CHECK_THROWS_WITH(retention({clock_alone, at_64_image(), std::nullopt, half_an_hour}, layout),
                    "compare: no RAM byte is known on both sides");
}

TEST_CASE("an image that is too small for the layout is refused, and a larger one is not") {
  const Image large(std::vector<std::uint8_t>(128, 0x55));
  CHECK_THROWS_AS(retention({at_64_image(), large, std::nullopt, half_an_hour},
                            built_in_layout("at+sum-40-7d")),
                  Error);
  CHECK(retention({at_64_image(), at_64_image().with_size(128), std::nullopt, half_an_hour},
                  built_in_layout("at"))
            .bits.empty());
}

TEST_CASE("what was lost of a password is told by the byte's address alone") {
  const Layout layout = built_in_layout("crc+slots-19");
  const Image found =
      with_bytes(crc_64_image(), {{0x04, 0x10}, {0x02, 0x05}, {0x38, 0x01}, {0x15, 0x82}});
  const Retention lost = retention({crc_64_image(), found, std::nullopt, half_an_hour}, layout);
  CHECK(lost.what == Retained::a_few_bits_lost);
  CHECK(
      lost.text.starts_with("One bit of the RAM was lost: 15h bit 1 (0 became 1); and 1 byte of a "
                            "password changed (38h). "
                            "A marginal chip"));
  CHECK(lost.hidden == Addresses{0x38});
  CHECK(lost.bits.size() == 1);
}

TEST_CASE("a password that was cleared is no lost bit") {
  const Layout layout = built_in_layout("crc+slots-19");
  const Image wanted = with_bytes(crc_64_image(), {{0x38, 0xFF}, {0x39, 0x01}});
  const Image found = with_bytes(crc_64_image(), {{0x04, 0x10}, {0x02, 0x05}});
  const Retention lost = retention({wanted, found, std::nullopt, half_an_hour}, layout);
  CHECK(lost.bits.empty());
  CHECK(lost.text.starts_with("Nothing but 2 bytes of a password changed (38h-39h): somebody"));
}

TEST_CASE("reads that differ in a password are told by the byte's address alone") {
  const Layout layout = built_in_layout("crc+slots-19");
  const Image again = with_bytes(crc_64_image(), {{0x38, 0x14}, {0x15, 0x82}});
  const Retention read = retention({crc_64_image(), crc_64_image(), again, half_an_hour}, layout);
  CHECK(read.what == Retained::changes_by_read);
  CHECK(read.text.find("where nothing ticks: 15h in bit 1, 38h.") != std::string::npos);
}

TEST_CASE("one lost bit is one, and a check that the firmware left alone is not its work") {
  const Retention lost = judged(with_bytes(found_after_35_minutes(), {{0x33, 0x04}}));
  CHECK(lost.what == Retained::a_few_bits_lost);
  CHECK(lost.text.starts_with("One bit of the RAM was lost: 33h bit 2 (0 became 1)."));
}

TEST_CASE("a check that does not count says nothing about who wrote the bytes") {
  const Layout layout = load_layout(
      R"({"layout": "mine", "title": "Mine", "checks": [
          {"id": "sum", "source": "s", "sum": {"width": 8}, "over": ["20-2F"],
           "stored": {"at": "30"}, "when": {"at": "3F", "bits": [0, 0], "is": 1}}]})",
      "mine", embedded_text);
  // 30h is no sum of 20h-2Fh, but with bit 0 of 3Fh off nobody asks for one.
  const Image found = with_bytes(found_after_35_minutes(), {{0x20, 0x01}, {0x30, 0x81}});
  const Retention lost = retention({at_64_image(), found, std::nullopt, half_an_hour}, layout);
  CHECK(lost.what == Retained::a_few_bits_lost);
}

TEST_CASE("a sum of two bytes is the firmware's work when both were written anew") {
  // 40h and D0h less: 0267h becomes 0157h (RBIL61 CMOS 2Eh).
  const Retention rewritten = judged(with_bytes(
      found_after_35_minutes(), {{0x10, 0x00}, {0x12, 0x20}, {0x2E, 0x01}, {0x2F, 0x57}}));
  CHECK(rewritten.what == Retained::firmware_rewrote);
  CHECK(rewritten.text.find("the firmware wrote 10h, 12h, 2Eh-2Fh itself") != std::string::npos);
}

TEST_CASE("a clock that stands is not said to go on, however short the time without power") {
  const auto fate = [](const Image& found, long long seconds, long long slack) {
    return retention({at_64_image(), found, std::nullopt, seconds, slack}, built_in_layout("at"))
        .clock;
  };
  const Image stands = at_64_image();
  CHECK(fate(stands, 30, 60) == ClockKept::unknown);
  CHECK(fate(stands, 61, 60) == ClockKept::stood_still);
  CHECK(fate(stands, 30, 5) == ClockKept::stood_still);
  CHECK(fate(stands, 5, 5) == ClockKept::unknown);
  CHECK(fate(found_after_35_minutes(), 30, 60) == ClockKept::kept);
}
