#include "audit/worth.h"

#include <catch2/catch.hpp>
#include <memory>

#include "audit/auditor.h"
#include "images/random_image.h"
#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

struct Said {
  std::string_view worth, reason;
  friend bool operator==(const Said&, const Said&) = default;
};

Said said_of(const Image& image, const char* layout = nullptr) {
  AuditRules rules;
  if (layout != nullptr) rules.named = std::make_shared<const Layout>(built_in_layout(layout));
  const Verdict verdict = judge_plainly(image, rules);
  return {name(worth_of(verdict)), reason_of(verdict)};
}

}  // namespace

TEST_CASE("a machine's settings are proven, whatever its clock and its cell say") {
  CHECK(said_of(at_64_image()) == Said{"proven", "sound"});
  CHECK(said_of(with_bytes(at_64_image(), {{0x04, 0x24}})) == Said{"proven", "clock unset"});
  CHECK(said_of(with_bytes(at_64_image(), {{0x0A, 0x06}})) == Said{"proven", "clock stopped"});
  CHECK(said_of(with_bytes(at_64_image(), {{0x0D, 0x00}})) == Said{"proven", "cell flat"});
  Image ram_only = at_64_image();
  for (Address at = 0; at < Image::ram_start; ++at) ram_only.forget(at);
  CHECK(said_of(ram_only) == Said{"proven", "clock unknown"});
}

TEST_CASE("settings that a check speaks against are broken, and so is a blank or misread dump") {
  CHECK(said_of(with_bytes(at_64_image(), {{0x2F, 0x68}}), "at") ==
        Said{"broken", "a check fails"});
  CHECK(said_of(Image(std::vector<std::uint8_t>(64, 0xFF))) == Said{"broken", "all FF"});
  CHECK(said_of(Image(std::vector<std::uint8_t>(128, 0x00))) == Said{"broken", "all 00"});
  Image cleared = at_64_image(), blank = at_64_image();
  for (Address at = Image::ram_start; at < 64; ++at) cleared.set(at, 0xFF), blank.set(at, 0x00);
  CHECK(said_of(cleared) == Said{"broken", "RAM cleared"});
  CHECK(said_of(blank, "at") == Said{"broken", "blank"});
  std::vector<std::uint8_t> stuck = at_64_bytes();
  for (std::uint8_t& byte : stuck) byte |= 0x20;
  CHECK(said_of(Image(stuck), "at") == Said{"broken", "data bit stuck"});
  // Address line 5 at 0: the lower half of the chip twice.
  std::vector<std::uint8_t> half = at_64_bytes();
  for (std::size_t at = 0x20; at < 0x40; ++at) half[at] = half[at - 0x20];
  CHECK(said_of(Image(half), "at") == Said{"broken", "half read"});
}

TEST_CASE("what no check speaks about is unproven: a chip unknown here, noise, or half a dump") {
  CHECK(said_of(at_64_image(), "chip") == Said{"unproven", "no check known"});
  Dice dice(170);
  Image unknown = at_64_image();
  for (Address at = Image::ram_start; at < 64; ++at)
    unknown.set(at, static_cast<std::uint8_t>(roll(dice, 256)));
  CHECK(said_of(unknown) == Said{"unproven", "no check known"});
  for (int round = 0; round < 20; ++round) {
    std::vector<std::uint8_t> noise(128);
    for (std::uint8_t& byte : noise) byte = static_cast<std::uint8_t>(roll(dice, 256));
    CHECK(said_of(Image(noise)) == Said{"unproven", "noise"});
  }
  Image half = at_64_image();
  for (Address at = 0x20; at < 0x40; ++at) half.forget(at);
  CHECK(said_of(half) == Said{"unproven", "half read"});
  CHECK(said_of(half, "at") == Said{"unproven", "half read"});
}
