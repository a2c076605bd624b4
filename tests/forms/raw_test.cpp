#include <catch2/catch.hpp>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;

TEST_CASE("a raw file of 64 or 128 bytes is a whole chip") {
  const std::string bytes(sample_bytes.begin(), sample_bytes.end());
  CHECK(read_dump(bytes, "dump", Form::raw).image == sample_64());
  CHECK(read_dump(bytes + std::string(64, '\0'), "dump", Form::raw).image == sample_128());
}

// Linux-nvram gives out the RAM part alone: 114 bytes from 0Eh, or 50 on a 64-byte part.
TEST_CASE("a raw file of 50 or 114 bytes is the RAM part and leaves the clock bytes unknown") {
  const std::string ram(sample_bytes.begin() + 14, sample_bytes.end());
  const Image small = read_dump(ram, "dump", Form::raw).image;
  CHECK(small.size() == 64);
  CHECK_FALSE(small.known(0x00));
  CHECK_FALSE(small.known(0x0D));
  CHECK(small.at(0x0E) == 0x00);
  CHECK(small.at(0x10) == 0x40);
  CHECK(small.at(0x3F) == 0x7F);
  const Image large = read_dump(ram + std::string(64, '\0'), "dump", Form::raw).image;
  CHECK(large == ram_part_of(sample_128()));
}

TEST_CASE("raw files of other sizes are refused, with the sizes that there are") {
  for (const std::size_t size : {1, 48, 51, 60, 65, 110, 115, 124, 129, 200, 1000001}) {
    const std::string bytes(size, '\1');
    CHECK_THAT(refusal(bytes, Form::raw), Contains(std::to_string(size) + " byte"));
    CHECK_THAT(remedy(bytes, Form::raw), Contains("64 or 128") && Contains("50 or 114"));
  }
}

TEST_CASE("raw and c-array refuse unknown bytes unless a fill is given") {
  const Image image = ram_part_of(sample_64());
  for (const Form form : {Form::raw, Form::c_array}) {
    CHECK_THROWS_WITH(write_dump(image, form), Contains("00h-0Dh are unknown"));
    try {
      write_dump(image, form);
    } catch (const Error& error) {
      CHECK_THAT(error.remedy(), Contains("say what to write in their place"));
    }
  }
  WriteOptions options;
  options.fill = 0xEE;
  const std::string bytes = write_dump(image, Form::raw, options);
  REQUIRE(bytes.size() == 64);
  CHECK(bytes[0] == '\xEE');
  CHECK(bytes[13] == '\xEE');
  CHECK(bytes[14] == '\0');
  CHECK(bytes[16] == '\x40');
}
