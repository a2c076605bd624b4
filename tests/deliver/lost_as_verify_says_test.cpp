// The program on the old machine and the judgement here agree about what is lost: over every class
// and trait of the library, on images that are sound, damaged, cleared, blank or noise.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "base/error.h"
#include "deliver/old_machine.h"
#include "deliver/parcel.h"
#include "images/random_image.h"
#include "judge/examine.h"

namespace rtcmend::test {

namespace {

/// Lost, to verify: a check does not hold, or holds over what is blank. What else breaks settings
/// (a value that means nothing, under a check that holds) was written so by somebody: restoring is
/// not asked for.
bool is_lost_here(const Image& image, const Layout& layout) {
  const Examination examination = examine(image, layout);
  for (const Finding& finding : examination.findings)
    if (finding.kind == FindingKind::check_mismatch || finding.kind == FindingKind::blank ||
        finding.kind == FindingKind::ram_cleared)
      return true;
  return false;
}

enum class There { left_alone, restored, neither };

/// What the program does with a machine whose chip holds these bytes.
There is_lost_there(const Image& held, const std::string& program) {
  OldMachine machine;
  for (Address at = Image::ram_start; at < held.size(); ++at) machine.chip.bytes[at] = held[at];
  const Stop stop = machine.run_com(program);
  if (stop == Stop::ended && machine.exit_code == 0 && machine.chip.writes.empty())
    return There::left_alone;
  if (stop == Stop::restarted) return There::restored;
  // A restore that stays in a loop's way: the image itself could not be told from a lost one.
  return machine.chip.writes.empty() ? There::neither : There::restored;
}

struct Held {
  std::string what;
  Image image;
};

Image filled(Image image, std::uint8_t value) {
  for (Address at = Image::ram_start; at < image.size(); ++at) image.set(at, value);
  return image;
}

/// What the chip may hold in place of the image.
std::vector<Held> states_of(const Image& image, const Layout& layout, rtcmend::Dice& dice) {
  std::vector<Held> states{{"as it was written", image},
                           {"another machine's sound settings", random_image(layout, dice)},
                           {"cleared", filled(image, 0xFF)},
                           {"zeros", filled(image, 0x00)},
                           {"one value", filled(image, 0x5A)}};
  Image noise = random_noise(image.size(), dice);
  for (Address at = 0; at < Image::ram_start; ++at) noise.set(at, image[at]);
  states.push_back({"noise", noise});
  // A bit of every fifth byte, covered or not.
  for (auto at = static_cast<Address>(Image::ram_start + roll(dice, 5)); at < image.size();
       at = static_cast<Address>(at + 5)) {
    Image damaged = image;
    damaged.set(at, static_cast<std::uint8_t>(image[at] ^ 1U << roll(dice, 8)));
    states.push_back({"one bit of byte " + std::to_string(at), damaged});
  }
  return states;
}

}  // namespace

TEST_CASE("when-lost and verify agree about what is lost, for every class and trait",
          "[long][count]") {
  rtcmend::Dice dice(1717);
  std::size_t layouts = 0, alone = 0, restored = 0;
  for (const Layout& layout : all_layouts()) {
    if (layout.checks.empty()) continue;
    INFO(layout.id);
    const Image image = random_image(layout, dice);
    Parcel parcel = parcel_of(image, layout);
    parcel.occasion = Occasion::when_lost;
    const std::string program = deliver(parcel, Way::dos_program).content;
    for (const Held& held : states_of(image, layout, dice)) {
      INFO(held.what);
      const There there = is_lost_there(held.image, program);
      CHECK(there == (is_lost_here(held.image, layout) ? There::restored : There::left_alone));
      ++(there == There::restored ? restored : alone);
    }
    ++layouts;
  }
  CHECK(layouts > 40);
  CHECK(alone > 3 * layouts);
  CHECK(restored > 5 * layouts);
}

TEST_CASE("a layout without checks is unproven here, and no loss can be told there") {
  std::size_t layouts = 0;
  for (const Layout& layout : all_layouts()) {
    if (!layout.checks.empty()) continue;
    INFO(layout.id);
    rtcmend::Dice dice(1718);
    const Image image = random_image(layout, dice);
    CHECK(examine(image, layout).standing.settings == Standing::Settings::unproven);
    Parcel parcel = parcel_of(image, layout);
    parcel.occasion = Occasion::when_lost;
    CHECK_THROWS_AS(deliver(parcel, Way::dos_program), Error);
    ++layouts;
  }
  CHECK(layouts > 0);
}

}  // namespace rtcmend::test
