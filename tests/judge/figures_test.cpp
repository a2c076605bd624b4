#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "identify/identify.h"
#include "images/injected_faults.h"
#include "images/random_image.h"
#include "judge/health.h"
#include "layout/library.h"
#include "repair/suspects.h"

using namespace rtcmend;

// Hidden: run by scripts/figures.sh, which prints the tables of docs/figures.md. They fail when a
// figure falls below what the page promises.

namespace {

constexpr int images_of_each_layout = 200;  // 5,000 in all for each kind of fault
constexpr unsigned seed = 20310514;

/// Counts what went right among what was tried.
struct Rate {
  int right = 0, tried = 0;

  void count(bool was_right) {
    right += was_right ? 1 : 0;
    ++tried;
  }
  void add(const Rate& other) {
    right += other.right;
    tried += other.tried;
  }
  double percent() const { return tried == 0 ? 100 : 100.0 * right / tried; }
};

std::string text_of(const Rate& rate) {
  return fmt::format("{:>6} of {:>6}  {:5.1f} %", rate.right, rate.tried, rate.percent());
}

bool is_first_or_tied(const Identification& found, const std::string& layout) {
  if (found.candidates.empty()) return false;
  if (found.candidates.front().layout == layout) return true;
  return std::find(found.tied.begin(), found.tied.end(), layout) != found.tied.end();
}

/// One kind of fault in images of one layout. A fault that leaves the image as it was is none.
Rate naming_rate(const FaultKind& kind, const Layout& layout, Dice& dice) {
  Rate rate;
  for (int i = 0; i < images_of_each_layout; ++i) {
    const Image image = random_image(layout, dice);
    if (!kind.fits(image)) return rate;
    const Injected fault = kind.inject(image, dice);
    if (fault.image != image) rate.count(named_rightly(fault));
  }
  return rate;
}

/// Where the repair of a flipped bit stands among the suspects: 1 = first, 0 = missing.
std::size_t place_of_repair(const Image& sound, const Image& damaged, const Layout& layout) {
  const auto all = suspects(damaged, layout);
  for (std::size_t i = 0; i < all.size(); ++i)
    if (repaired(damaged, all[i]) == sound) return i + 1;
  return 0;
}

/// Bytes in a check, but for those of passwords, about which nothing is guessed.
Addresses checked_bytes(const Layout& layout) {
  Addresses all;
  for (std::size_t i = 0; i < layout.size; ++i) {
    const auto at = static_cast<Address>(i);
    const auto fields = layout.fields_at(at);
    const bool concealed = std::any_of(fields.begin(), fields.end(), [](const Field* field) {
      return field->meaning == Meaning::concealed;
    });
    if (!concealed && !(layout.checks_over(at).empty() && layout.checks_at(at).empty()))
      all.push_back(at);
  }
  return all;
}

/// How the true repairs of flipped bits fare.
struct Repairs {
  Rate listed, among_five, first;
};

void flip_every_bit(const Image& sound, const Layout& layout, Repairs& repairs) {
  for (const Address at : checked_bytes(layout))
    for (unsigned bit = 0; bit < 8; ++bit) {
      Image damaged = sound;
      damaged.set(at, static_cast<std::uint8_t>(sound[at] ^ (1U << bit)));
      const std::size_t place = place_of_repair(sound, damaged, layout);
      repairs.listed.count(place > 0);
      repairs.among_five.count(place > 0 && place <= 5);
      repairs.first.count(place == 1);
    }
}

}  // namespace

TEST_CASE("figures: alarms on sound images", "[.figures]") {
  Dice dice(seed);
  Rate quiet;
  for (const Layout& layout : all_layouts())
    for (int i = 0; i < images_of_each_layout; ++i)
      quiet.count(health(random_image(layout, dice), all_layouts()).empty());
  fmt::print("sound images without alarm  {}\n", text_of(quiet));
  CHECK(quiet.right == quiet.tried);
}

TEST_CASE("figures: faults of the dump named", "[.figures]") {
  Dice dice(seed);
  for (const FaultKind& kind : fault_kinds()) {
    Rate all;
    double worst = 100;
    std::string worst_layout;
    for (const Layout& layout : all_layouts()) {
      const Rate own = naming_rate(kind, layout, dice);
      all.add(own);
      if (own.percent() >= worst) continue;
      worst = own.percent();
      worst_layout = layout.id;
    }
    fmt::print("{:<26}  {}  worst {:5.1f} % {}\n", kind.name, text_of(all), worst, worst_layout);
    CHECK(all.percent() >= 95);
  }
}

TEST_CASE("figures: layouts identified", "[.figures]") {
  Dice dice(seed);
  for (const Layout& layout : all_layouts()) {
    Rate first_or_tied, alone, clear;
    for (int i = 0; i < images_of_each_layout; ++i) {
      const Identification found = identify(random_image(layout, dice));
      const bool good = is_first_or_tied(found, layout.id);
      first_or_tied.count(good);
      alone.count(good && found.tied.empty());
      clear.count(!found.clear.empty());
    }
    fmt::print("{:<21} first or tied {:5.1f} %  first alone {:5.1f} %  clear {:5.1f} %\n",
               layout.id, first_or_tied.percent(), alone.percent(), clear.percent());
    CHECK(first_or_tied.percent() >= 99);
  }
}

TEST_CASE("figures: noise claimed by nobody", "[.figures]") {
  Dice dice(seed);
  for (const std::size_t size : {Image::small_size, Image::large_size}) {
    Rate unclaimed, empty;
    for (int i = 0; i < 50 * images_of_each_layout; ++i) {
      const Identification found = identify(random_noise(size, dice), all_layouts());
      unclaimed.count(found.clear.empty());
      empty.count(found.candidates.empty());
    }
    fmt::print("noise of {:>3} bytes: no layout clear {}\n", size, text_of(unclaimed));
    fmt::print("noise of {:>3} bytes: no candidate    {}\n", size, text_of(empty));
    CHECK(unclaimed.right == unclaimed.tried);
    CHECK(empty.percent() >= 99);
  }
}

TEST_CASE("figures: flipped bits repaired", "[.figures]") {
  constexpr int images = 40;
  Dice dice(seed);
  for (const char* id : {"at", "crc+slots-19"}) {
    const Layout layout = built_in_layout(id);
    Repairs repairs;
    for (int i = 0; i < images; ++i) flip_every_bit(random_image(layout, dice), layout, repairs);
    fmt::print("{:<8} true repair listed  {}\n", id, text_of(repairs.listed));
    fmt::print("{:<8} among the five first {}\n", id, text_of(repairs.among_five));
    fmt::print("{:<8} first                {}\n", id, text_of(repairs.first));
    CHECK(repairs.listed.right == repairs.listed.tried);
  }
}
