#include "repair/suspects.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/error.h"
#include "judge/examining.h"
#include "judge/made_up.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

std::vector<Suspect> suspects_of(const Image& image, const std::string& layout = "at") {
  return suspects(image, layout_of(layout));
}

bool restores(const std::vector<Suspect>& all, const Image& damaged, const Image& sound) {
  return std::any_of(all.begin(), all.end(),
                     [&](const Suspect& suspect) { return repaired(damaged, suspect) == sound; });
}

const Suspect* with_id(const std::vector<Suspect>& all, const std::string& id) {
  for (const Suspect& suspect : all)
    if (suspect.id == id) return &suspect;
  return nullptr;
}

/// Flips whose repair is missing, as "10.3"; empty is what we want.
std::vector<std::string> flips_missed(const Image& sound, const std::string& layout, Range range) {
  std::vector<std::string> missed;
  for (const Address at : to_addresses(range))
    for (unsigned bit = 0; bit < 8; ++bit) {
      const auto flipped = static_cast<std::uint8_t>(sound[at] ^ (1U << bit));
      const Image damaged = with_bytes(sound, {{at, flipped}});
      if (!restores(suspects_of(damaged, layout), damaged, sound))
        missed.push_back(to_text(Range{at, at}) + "." + std::to_string(bit));
    }
  return missed;
}

}  // namespace

TEST_CASE("an image whose checks hold has no suspects") {
  CHECK(suspects_of(at_64_image()).empty());
  CHECK(suspects_of(crc_64_image(), "crc+slots-19").empty());
}

TEST_CASE("for every flipped bit of a covered or stored byte the true repair is a suspect") {
  const std::vector<std::string> none;
  CHECK(flips_missed(at_64_image(), "at", {0x10, 0x2F}) == none);
  CHECK(flips_missed(crc_64_image(), "crc+slots-19", {0x14, 0x33}) == none);
}

TEST_CASE("a flip that leaves an illegal field is found first") {
  // 10h: 40h is one 1.44 MB drive (published: RBIL61 CMOS 10h); C0h is no drive type.
  const Image damaged = with_bytes(at_64_image(), {{0x10, 0xC0}});
  const auto all = suspects_of(damaged);
  REQUIRE_FALSE(all.empty());
  CHECK(all[0].id == "bit-10-7");
  CHECK(all[0].changes == std::vector<Patch>{{0x10, 0xC0, 0x40}});
  CHECK(all[0].mends == std::vector<std::string>{"sum-10-2d"});
  CHECK(all[0].text ==
        "Bit 7 of 10h flipped: it holds C0h and should hold 40h. First floppy drive: code 12 "
        "becomes 1.44M.");
  CHECK(all[0].odds > 0.6);
}

TEST_CASE("the odds of the suspects for one check leave a share for none of these") {
  const auto all = suspects_of(with_bytes(at_64_image(), {{0x20, 0x08}}));
  double sum = 0;
  for (const Suspect& suspect : all) sum += suspect.odds;
  CHECK(sum < 1.0);
  const auto open = none_of_these(all);
  REQUIRE(open.size() == 1);
  CHECK(open[0].mends == std::vector<std::string>{"sum-10-2d"});
  CHECK(open[0].odds > 0);
  CHECK(open[0].odds + sum == Approx(1.0));
}

TEST_CASE("suspects come likeliest first") {
  const auto all = suspects_of(with_bytes(at_64_image(), {{0x17, 0x84}}));
  for (std::size_t i = 1; i < all.size(); ++i) CHECK(all[i - 1].odds >= all[i].odds);
  CHECK(all.size() > 3);
}

TEST_CASE("one wrong byte is a suspect") {
  const Image damaged = with_bytes(at_64_image(), {{0x19, 0x11}});
  const auto all = suspects_of(damaged);
  const Suspect* suspect = with_id(all, "byte-19-27");
  REQUIRE(suspect != nullptr);
  CHECK(suspect->changes == std::vector<Patch>{{0x19, 0x11, 0x27}});
  CHECK(repaired(damaged, *suspect) == at_64_image());
}

TEST_CASE("the two check bytes in each other's place are a suspect") {
  const Image damaged = with_bytes(at_64_image(), {{0x2E, 0x67}, {0x2F, 0x02}});
  CHECK(with_id(suspects_of(damaged), "swap-2E-2F") != nullptr);
}

TEST_CASE("two swapped bytes under a CRC are found first") {
  const Image damaged = with_bytes(crc_64_image(), {{0x15, 0x02}, {0x16, 0x80}});
  const auto all = suspects_of(damaged, "crc+slots-19");
  REQUIRE_FALSE(all.empty());
  CHECK(all[0].id == "swap-15-16");
  CHECK(repaired(damaged, all[0]) == crc_64_image());
}

TEST_CASE("a field that was changed without sealing makes the check stale") {
  // 40h -> 20h in 10h: one drive of 1.2 MB instead of 1.44 MB (published: RBIL61 C0007).
  const Image changed = with_bytes(at_64_image(), {{0x10, 0x20}});
  const auto all = suspects_of(changed);
  const Suspect* suspect = with_id(all, "seal-sum-10-2d");
  REQUIRE(suspect != nullptr);
  CHECK(suspect->text.find("floppy_a from 1.44M to 1.2M") != std::string::npos);
  // The sum falls by 20h, from 0267h to 0247h.
  CHECK(suspect->changes == std::vector<Patch>{{0x2F, 0x67, 0x47}});
}

TEST_CASE("check bytes that no small damage explains can only be sealed anew") {
  const Image damaged = with_bytes(at_64_image(), {{0x2E, 0x91}, {0x2F, 0x3B}});
  const auto all = suspects_of(damaged);
  REQUIRE(all.size() == 1);
  CHECK(all[0].id == "seal-sum-10-2d");
  // Likelier than not it is something that no list of small repairs holds.
  CHECK(all[0].odds < 0.5);
  CHECK(all[0].text == "The check bytes of sum-10-2d are wrong, or were never written.");
}

TEST_CASE("blank and unjudgeable checks have no suspects") {
  CHECK(suspects_of(Image(std::vector<std::uint8_t>(64, 0x00))).empty());
  CHECK(suspects_of(Image(std::vector<std::uint8_t>(64, 0xFF))).empty());
  CHECK(suspects_of(without(at_64_image(), {0x20, 0x20})).empty());
}

TEST_CASE("two failed checks that no one repair explains have suspects each") {
  const Layout layout = built_in_layout("at+sum-34-3d");
  // Second sum over 34h-3Dh at 3Eh, high byte first: RBIL61 CMOS 3Eh. 12h + 34h = 46h.
  const Image sound =
      with_bytes(at_64_image(), {{0x34, 0x12}, {0x3A, 0x34}, {0x3E, 0x00}, {0x3F, 0x46}});
  REQUIRE(suspects(sound, layout).empty());
  const Image damaged = with_bytes(sound, {{0x12, 0xF8}, {0x3A, 0x24}});
  const auto all = suspects(damaged, layout);
  const Suspect* first = with_id(all, "bit-12-3");
  const Suspect* second = with_id(all, "bit-3A-4");
  REQUIRE(first != nullptr);
  REQUIRE(second != nullptr);
  CHECK(first->mends == std::vector<std::string>{"sum-10-2d"});
  CHECK(second->mends == std::vector<std::string>{"sum-34-3d"});
  CHECK(repaired(repaired(damaged, *first), *second) == sound);
}

TEST_CASE("nothing is guessed about bytes of passwords") {
  // 13h of the CRC class holds the password switches: published, RBIL61 C0017.
  for (const Suspect& suspect :
       suspects_of(with_bytes(crc_64_image(), {{0x13, 0x41}}), "crc+slots-19"))
    for (const Patch& patch : suspect.changes) CHECK(patch.at != 0x13);
}

TEST_CASE("a suspect is found by its id, and a wrong id is told the nearest ones") {
  const auto all = suspects_of(with_bytes(at_64_image(), {{0x10, 0xC0}}));
  CHECK(need_suspect(all, "BIT-10-7").id == "bit-10-7");
  CHECK_THROWS_WITH(need_suspect(all, "bit-10-6"), Catch::Contains("not among the suspects"));
  CHECK_THROWS_WITH(need_suspect({}, "bit-10-7"), Catch::Contains("no check fails"));
  const auto remedy = [&](std::string_view id) -> std::string {
    try {
      need_suspect(all, id);
    } catch (const Error& error) {
      return error.remedy();
    }
    return "accepted";
  };
  CHECK(remedy("bit-10-8").starts_with("did you mean bit-10-7"));
  CHECK(remedy("something-else-entirely") == "One of those that are listed.");
}

TEST_CASE(
    "a check that does not count, or cannot be judged, is no trouble that a repair must mind") {
  const Layout layout = made_up(
      R"("checks": [)" + check_entry("first", R"("sum": {"width": 16}, "over": ["10-2D"],
                              "stored": {"at": "2E", "order": "high-first"})") +
      "," + check_entry("off", R"("xor": {}, "over": ["10-1F"], "stored": {"at": "3D"},
                                  "when": {"at": "3F", "is": 1})") +
      "," +
      check_entry("unknown", R"("xor": {}, "over": ["10-1F", "3E"], "stored": {"at": "3C"})") +
      "]");
  const Image image = without(with_bytes(at_64_image(), {{0x10, 0xC0}}), {0x3E, 0x3E});
  const auto all = suspects(image, layout);
  REQUIRE_FALSE(all.empty());
  CHECK(std::any_of(all.begin(), all.end(), [](const Suspect& one) {
    return one.id == "bit-10-7" && one.mends == std::vector<std::string>{"first"};
  }));
}

TEST_CASE("a repair that breaks a check that holds is no repair") {
  const auto with_second = [](const std::string& over) {
    return made_up(
        R"("checks": [)" + check_entry("first", R"("sum": {"width": 16}, "over": ["10-2D"],
                                           "stored": {"at": "2E", "order": "high-first"})") +
        "," +
        check_entry("second", R"("xor": {}, "over": [")" + over + R"("], "stored": {"at": "3D"})") +
        "]");
  };
  Image image = with_bytes(at_64_image(), {{0x12, 0xF1}});
  const auto has_bit = [&](const Layout& layout) {
    seal_one(layout.checks[1], image);
    const auto all = suspects(image, layout);
    return std::any_of(all.begin(), all.end(),
                       [](const Suspect& one) { return one.id == "bit-12-0"; });
  };
  CHECK(has_bit(with_second("13-1F")));
  CHECK_FALSE(has_bit(with_second("10-1F")));
}
