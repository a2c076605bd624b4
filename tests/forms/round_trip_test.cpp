#include <catch2/catch.hpp>
#include <random>
#include <vector>

#include "forms/samples.h"

using namespace rtcmend;

namespace {

std::string random_raw(std::size_t size, unsigned seed) {
  std::mt19937 random(seed);
  std::string bytes;
  for (std::size_t i = 0; i < size; ++i) bytes += static_cast<char>(random() & 0xFF);
  return bytes;
}

/// Images that a writer could trip over: all the same byte, all printable, all hex digits.
std::vector<std::string> special_raws(std::size_t size) {
  std::vector<std::string> all;
  for (const char c : {'\0', '\xFF', ' ', '0', 'A', ':', 'S', '{', '\n', '\x1A', '|', '='})
    all.emplace_back(size, c);
  return all;
}

void check_every_form(const std::string& raw) {
  const Image image = read_dump(raw, "dump", Form::raw).image;
  for (const Form form : all_forms()) {
    CAPTURE(name(form));
    const std::string text = write_dump(image, form);
    const Image back = read_dump(text, "dump", form).image;
    CHECK(write_dump(back, Form::raw) == raw);
  }
}

}  // namespace

TEST_CASE("raw to any form and back is the identity") {
  for (const std::size_t size : {64, 128}) {
    for (unsigned seed = 1; seed <= 300; ++seed) check_every_form(random_raw(size, seed));
    for (const std::string& raw : special_raws(size)) check_every_form(raw);
  }
}

TEST_CASE("a hundred thousand random images go through every form", "[.whole]") {
  std::mt19937 random(1);
  std::size_t lost = 0;
  std::vector<std::uint8_t> bytes;
  for (int round = 0; round < 100'000; ++round) {
    bytes.resize(round % 2 == 0 ? 64 : 128);
    for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(random());
    const Image image(bytes);
    for (const Form form : all_forms())
      if (!(read_dump(write_dump(image, form), "dump", form).image == image)) ++lost;
  }
  CHECK(lost == 0);
}

TEST_CASE("hex, rows and JSON carry any unknown bytes there and back") {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    std::mt19937 random(seed);
    Image image(seed % 2 == 0 ? 64 : 128);
    for (std::size_t at = 0; at < image.size(); ++at)
      if (random() % 3 != 0) image.set(static_cast<Address>(at), random() & 0xFF);
    for (const Form form : {Form::hex, Form::rows, Form::json}) {
      CAPTURE(seed, name(form));
      CHECK(read_dump(write_dump(image, form), "dump").image == image);
    }
  }
}

TEST_CASE("the two record forms carry unknown bytes below a known last one") {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    std::mt19937 random(seed);
    Image image(seed % 2 == 0 ? 64 : 128);
    for (std::size_t at = 0; at < image.size(); ++at)
      if (random() % 3 != 0) image.set(static_cast<Address>(at), random() & 0xFF);
    image.set(static_cast<Address>(image.size() - 1), 0x5A);
    for (const Form form : {Form::intel_hex, Form::s_record}) {
      CAPTURE(seed, name(form));
      CHECK(read_dump(write_dump(image, form), "dump").image == image);
    }
  }
}

TEST_CASE("whatever is done to a dump, it is read or refused", "[long]") {
  std::size_t refused = 0;
  std::size_t read = 0;
  for (unsigned seed = 1; seed <= 4000; ++seed) {
    std::mt19937 random(seed);
    const Form form = all_forms()[random() % all_forms().size()];
    std::string text = write_dump(seed % 2 == 0 ? sample_64() : sample_128(), form);
    for (unsigned change = 0; change <= random() % 4; ++change) {
      const std::size_t at = random() % text.size();
      const auto byte = static_cast<char>(random() & 0xFF);
      if (random() % 3 == 0)
        text.erase(at, 1 + random() % 8);
      else if (random() % 2 == 0)
        text.insert(at, 1 + random() % 8, byte);
      else
        text[at] = byte;
      if (text.empty()) text = "0";
    }
    for (const Form as : all_forms()) refusal(text, as);
    if (refusal(text).empty())
      ++read;
    else
      ++refused;
  }
  CHECK(read > 100);
  CHECK(refused > 100);
}
