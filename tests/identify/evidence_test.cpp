#include "identify/evidence.h"

#include <catch2/catch.hpp>

#include "chip/registers.h"
#include "images/random_image.h"
#include "judge/made_up.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

const std::string at_2e = R"(, "stored": {"at": "2E", "order": "high-first"})";
const std::string crc =
    R"("crc": {"width": 16, "poly": "1021", "init": "FFFF", "refin": false, "refout": false, "xorout": "0000"})";

Layout of_checks(const std::string& checks) {
  return made_up(R"("checks": [)" + checks + "]");
}

Layout of_check(const std::string& rest) {
  return of_checks(check_entry("c", rest));
}

/// The image with every check of the layout made to hold.
Image sealed(Image image, const Layout& layout) {
  for (const Check& check : layout.checks) seal_one(check, image);
  return image;
}

Image flipped(const Image& image, Address at, std::uint8_t bits) {
  return with_bytes(image, {{at, static_cast<std::uint8_t>(image[at] ^ bits)}});
}

std::vector<std::string> why(const Layout& layout, const Image& image) {
  return evidence_of_checks(layout, image).why;
}

using Words = std::vector<std::string>;

double bits_of(const std::string& rest, const Image& image) {
  const Layout layout = made_up(R"("fields": [)" + field_entry("f", rest) + "]");
  return bits_of_field(layout.fields[0], layout, image);
}

Image holding(std::uint8_t byte, std::uint8_t next = 0) {
  return with_bytes(at_64_image(), {{0x20, byte}, {0x21, next}});
}

}  // namespace

TEST_CASE("a check that holds speaks by its width, a layout without one by nothing") {
  const Layout layout = of_check(R"("sum": {"width": 16}, "over": ["10-2D"])" + at_2e);
  CHECK(evidence_of_checks(layout, at_64_image()).bits == 16);
  CHECK(why(layout, at_64_image()) == Words{"c holds"});
  CHECK(why(of_checks(""), at_64_image()) == Words{"no check to judge by"});
  CHECK(why(layout, without(at_64_image(), {0x20, 0x20})) == Words{"c cannot be judged"});
}

TEST_CASE("a sum that one bit or one byte would put right is damaged, one far off is ruined") {
  const Layout layout = of_check(R"("sum": {"width": 16}, "over": ["10-2D"])" + at_2e);
  const auto bit = evidence_of_checks(layout, flipped(at_64_image(), 0x20, 0x10));
  CHECK(bit.damaged);
  CHECK(bit.bits > 0);
  CHECK(bit.why == Words{"c fails by what one slip would do"});
  const auto byte = evidence_of_checks(layout, with_bytes(at_64_image(), {{0x20, 0x53}}));
  CHECK(byte.damaged);
  CHECK(byte.bits < bit.bits);
  const auto off = evidence_of_checks(layout, with_bytes(at_64_image(), {{0x2E, 0x77}}));
  CHECK_FALSE(off.damaged);
  CHECK(off.bits < 0);
  CHECK(off.why == Words{"c fails"});
  CHECK(why(layout, with_bytes(at_64_image(), {{0x2E, 0x67}, {0x2F, 0x02}})) ==
        Words{"c holds with its two bytes in the other order"});
}

TEST_CASE("check bytes that were never written are no slip") {
  const Layout layout = of_check(crc + R"(, "over": ["10-31"])" +
                                 R"(, "stored": {"at": "32", "order": "high-first"})");
  CHECK(why(layout, with_bytes(crc_64_image(), {{0x32, 0x00}, {0x33, 0x00}})) == Words{"c fails"});
  CHECK(why(layout, with_bytes(crc_64_image(), {{0x32, 0xFF}, {0x33, 0xFF}})) == Words{"c fails"});
}

TEST_CASE("one flipped bit explains a CRC, a sum of pairs, and a check with conditions") {
  const std::string conditional =
      R"(, "over": ["10-1F", {"range": "20-2D", "when": {"at": "30", "bits": [7, 7], "is": 1}}])";
  for (const std::string& rest :
       {crc + R"(, "over": ["10-2D"])" + at_2e,
        R"("sum": {"width": 16, "pairs": "high-first"}, "over": ["10-2D"])" + at_2e,
        crc + conditional + at_2e,
        crc + R"(, "over": ["10-2D"], "when": {"at": "30", "bits": [7, 7], "is": 1})" + at_2e}) {
    INFO(rest);
    const Layout layout = of_check(rest);
    const Image good = sealed(at_64_image(), layout);
    CHECK(why(layout, good) == Words{"c holds"});
    for (const Address at : Addresses{0x12, 0x21, 0x2E, 0x2F})
      CHECK(why(layout, flipped(good, at, 0x08)) == Words{"c fails by what one slip would do"});
    CHECK(why(layout, flipped(flipped(good, 0x12, 0x5A), 0x19, 0x33)) == Words{"c fails"});
  }
}

TEST_CASE("an 8-bit check is explained by anything, so that nothing explains it") {
  const Layout layout = of_check(R"("xor": {}, "over": ["10-2D"], "stored": {"at": "2E"})");
  CHECK(why(layout, flipped(sealed(at_64_image(), layout), 0x2E, 0x01)) == Words{"c fails"});
}

TEST_CASE("a check over equal bytes proves nothing, or fails over nothing") {
  const Layout layout = of_check(R"("xor": {}, "over": ["34-3D"], "stored": {"at": "3E"})");
  CHECK(why(layout, at_64_image()) == Words{"c proves nothing: it covers nothing but equal bytes"});
  CHECK(why(layout, with_bytes(at_64_image(), {{0x3E, 0x01}})) ==
        Words{"c fails, over nothing but equal bytes"});
}

TEST_CASE("a check that does not count is not mentioned, and weighs nothing") {
  const Layout layout =
      of_checks(check_entry("c", R"("sum": {"width": 16}, "over": ["10-2D"])" + at_2e) + "," +
                check_entry("d", R"("xor": {}, "over": ["10-2D"], "stored": {"at": "3E"},
                          "when": {"at": "3F", "is": 1})"));
  CHECK(why(layout, at_64_image()) == Words{"c holds"});
  CHECK(evidence_of_checks(layout, at_64_image()).bits == 16);
  CHECK(evidence_of_checks(layout, with_bytes(at_64_image(), {{0x3F, 1}, {0x3E, 1}})).bits < 0);
}

TEST_CASE("a legal value speaks for its field by how few codes are legal") {
  // Sixteen codes of 256 are legal: four bits. BCD: a hundred of 256.
  CHECK(bits_of(R"("at": "20", "number": {"range": [1, 16]})", holding(5)) == Approx(4));
  CHECK(bits_of(R"("at": "20", "number": {"range": [64, 1024], "scale": 64})", holding(5)) ==
        Approx(4));
  CHECK(bits_of(R"("at": "20", "bcd": {})", holding(0x12)) == Approx(1.3561).epsilon(0.001));
  CHECK(bits_of(R"("at": "20", "bcd": {"range": [0, 15]})", holding(0x12)) == Approx(4));
  CHECK(bits_of(R"("at": "20", "choice": {"1": "a", "2": "b"})", holding(1)) == Approx(7));
  CHECK(bits_of(R"("at": "20", "number": {})", holding(5)) == Approx(0));
}

TEST_CASE("a value that is not legal speaks against, bits all 0 or all 1 say nothing") {
  const char* const numbered = R"("at": "20", "number": {"range": [1, 255]})";
  CHECK(bits_of(numbered, holding(0)) < 0);
  CHECK(bits_of(numbered, holding(0xFF)) == 0);
  CHECK(bits_of(numbered, without(holding(5), {0x20, 0x20})) == 0);
  CHECK(bits_of(R"("at": "20", "number": {"range": [1, 16]}, "when": {"at": "3F", "is": 1})",
                holding(5)) == 0);
}

TEST_CASE("only the default of a wide field speaks for it, of text and bytes nothing else") {
  const char* const wide = R"("at": "20-21", "order": "low-first", "number": {}, "default": 640)";
  CHECK(bits_of(wide, holding(0x80, 0x02)) == 7);
  CHECK(bits_of(wide, holding(0x81, 0x02)) == 0);
  CHECK(bits_of(R"("at": "20", "bits": [3, 0], "number": {}, "default": 5)", holding(5)) == 0);
  const char* const bytes = R"("at": "20-21", "bytes": {}, "default": "A55A")";
  CHECK(bits_of(bytes, holding(0xA5, 0x5A)) == 7);
  CHECK(bits_of(bytes, holding(0xA5, 0x5B)) == 0);
  CHECK(bits_of(R"("at": "20-21", "bytes": {}, "default": "FFFF")", holding(0xFF, 0xFF)) == 0);
  CHECK(bits_of(R"("at": "20-21", "text": {}, "default": "AB")", holding('A', 'B')) == 7);
  CHECK(bits_of(R"("at": "20-21", "text": {})", holding('A', 0x07)) < 0);
}

TEST_CASE("a field that agrees with its leader speaks by its width, one that does not against") {
  const auto bits = [](std::uint8_t leader, std::uint8_t follower) {
    const Layout layout =
        made_up(R"("fields": [)" + field_entry("a", R"("at": "20", "number": {})") + "," +
                field_entry("b", R"("at": "21", "bits": [3, 0],
                                        "number": {}, "follows": {"same": "a"})") +
                "]");
    return bits_of_field(layout.fields[1], layout, holding(leader, follower));
  };
  CHECK(bits(5, 5) == 4);
  CHECK(bits(0, 0) == 0);
  CHECK(bits(5, 6) == -4);
}

TEST_CASE("the words about fields count those that make sense, do not, or contradict others") {
  const Layout layout = made_up(
      R"("fields": [)" + field_entry("a", R"("at": "20", "number": {"range": [0, 9]})") + "," +
      field_entry("b", R"("at": "21", "number": {}, "follows": {"same": "a"})") + "," +
      field_entry("c", R"("at": "22", "number": {}, "when": {"at": "3F", "is": 1})") + "]");
  CHECK(evidence_of_fields(layout, holding(5, 5)).why == Words{"2 fields make sense"});
  CHECK(evidence_of_fields(layout, holding(5, 6)).why ==
        Words{"2 fields make sense", "1 contradicts others"});
  CHECK(evidence_of_fields(layout, holding(10, 10)).why ==
        Words{"1 field makes sense", "1 does not"});
}

TEST_CASE("a dump whose registers are unknown says nothing about its chip") {
  CHECK(evidence_of_chip(at_64_image()).why == Words{"clock and registers make sense"});
  CHECK(evidence_of_chip(without(at_64_image(), {reg::d, reg::d})).why.empty());
  CHECK(evidence_of_chip(without(at_64_image(), {reg::b, reg::b})).why.empty());
}

// What is passed over for speed must be what could never have counted.

TEST_CASE("what checks could come to at most is never less than what they come to",
          "[long][count]") {
  Dice dice(91);
  std::size_t failing = 0;
  for (const Layout& layout : all_layouts())
    for (int round = 0; round < 40; ++round) {
      Image image = random_image(layout, dice);
      for (unsigned flipped = roll(dice, 3); flipped > 0; --flipped) {
        const auto at = static_cast<Address>(roll(dice, static_cast<unsigned>(image.size())));
        image.set(at, static_cast<std::uint8_t>(image[at] ^ (1U << roll(dice, 8))));
      }
      std::vector<CheckResult> results;
      for (const Check& check : layout.checks) results.push_back(evaluate(check, image));
      const CheckWeight weight = weigh_checks(results, image);
      INFO(layout.id);
      CHECK(most_bits_of_checks(results) >= weight.bits);
      failing += weight.damaged ? 1 : 0;
    }
  CHECK(failing > 100);
}

TEST_CASE("a field that cannot be evidence says nothing, whatever its bytes") {
  Dice dice(92);
  std::size_t silent = 0;
  for (const Layout& layout : all_layouts())
    for (const Field& field : layout.fields) {
      if (can_be_evidence(field)) continue;
      ++silent;
      INFO(layout.id << " " << field.id);
      for (int round = 0; round < 20; ++round) {
        const Image image = random_noise(layout.size, dice);
        CHECK(bits_of_field(field, layout, image) == 0);
      }
    }
  CHECK(silent > 100);
}
