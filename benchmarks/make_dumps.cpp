// make_dumps FOLDER COUNT SIZE | make_dumps FILE COUNT SIZE packed [LAYOUT]: dumps to audit, the
// same ones each time: of every built-in layout of that size in turn, or of one; one in eight with
// a byte or two spoilt.

#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>

#include "images/random_image.h"

namespace {

using namespace rtcmend;

std::vector<const Layout*> layouts_of(std::size_t size, const std::string& id) {
  std::vector<const Layout*> found;
  for (const Layout& layout : all_layouts())
    if (layout.size == size && !layout.checks.empty() && (id.empty() || layout.id == id))
      found.push_back(&layout);
  return found;
}

Image next_image(const std::vector<const Layout*>& layouts, unsigned number, Dice& dice) {
  Image image = random_image(*layouts[number % layouts.size()], dice);
  if (once_in(dice, 8))
    for (unsigned spoilt = 1 + roll(dice, 2); spoilt > 0; --spoilt)
      image.set(static_cast<Address>(roll(dice, static_cast<unsigned>(image.size()))),
                static_cast<std::uint8_t>(roll(dice, 256)));
  return image;
}

void write(std::ostream& to, const Image& image) {
  to.write(reinterpret_cast<const char*>(image.bytes().data()),
           static_cast<std::streamsize>(image.size()));
}

}  // namespace

int main(int count, char** words) {
  if (count < 4) return 2;
  const std::filesystem::path target = words[1];
  const auto dumps = static_cast<unsigned>(std::atoi(words[2]));
  const auto layouts =
      layouts_of(static_cast<std::size_t>(std::atoi(words[3])), count > 5 ? words[5] : "");
  if (layouts.empty()) return 2;
  // A few thousand different ones say as much as a million, and take seconds to make.
  constexpr unsigned different = 4096;
  Dice dice(1);
  std::vector<Image> images;
  for (unsigned i = 0; i < std::min(dumps, different); ++i)
    images.push_back(next_image(layouts, i, dice));
  if (count > 4) {
    std::ofstream file(target, std::ios::binary);
    for (unsigned i = 0; i < dumps; ++i) write(file, images[i % different]);
    return file ? 0 : 3;
  }
  for (unsigned i = 0; i < dumps; ++i) {
    const auto folder = target / fmt::format("{:03}", i / 1000);
    if (i % 1000 == 0) std::filesystem::create_directories(folder);
    std::ofstream file(folder / fmt::format("{:06}.bin", i), std::ios::binary);
    write(file, images[i % different]);
  }
  return 0;
}
