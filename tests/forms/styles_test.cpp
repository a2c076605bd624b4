#include "forms/styles.h"

#include <catch2/catch.hpp>
#include <random>

#include "forms/samples.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

std::string random_bytes(std::size_t size, std::mt19937& random) {
  std::string bytes;
  for (std::size_t i = 0; i < size; ++i) bytes += static_cast<char>(random() & 0xFF);
  return bytes;
}

Image image_of(const std::string& bytes) {
  return Image(std::span(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()));
}

/// Writes images in every style and reads them back; how many did not come back as they were.
std::size_t lost(std::size_t images) {
  std::mt19937 random(2031);
  std::size_t count = 0;
  for (std::size_t i = 0; i < images; ++i) {
    const std::string bytes = random_bytes(i % 2 == 0 ? 64 : 128, random);
    for (const Style& style : styles()) {
      const std::string text = style.write(bytes);
      std::string problem = "other bytes";
      try {
        if (read_dump(text, "dump", style.options).image == image_of(bytes)) continue;
      } catch (const Error& error) {
        problem = error.what();
      }
      if (++count < 20) UNSCOPED_INFO(style.name + ": " + problem + "\n" + text);
    }
  }
  return count;
}

}  // namespace

TEST_CASE("random images go through forty styles and back", "[long][count]") {
  CHECK(styles().size() >= 40);
  CHECK(lost(40) == 0);
}

TEST_CASE("ten thousand random images go through forty styles and back", "[.whole]") {
  CHECK(lost(10'000) == 0);
}
