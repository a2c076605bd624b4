#include <catch2/catch.hpp>
#include <cstdio>
#include <fmt/format.h>
#include <random>
#include <string>
#include <vector>

#include "check/crc.h"

using namespace rtcmend;

namespace {

using Bytes = std::vector<std::uint8_t>;

std::string to_hex(const Bytes& bytes) {
  std::string text;
  for (const std::uint8_t byte : bytes) text += fmt::format("{:02X}", byte);
  return text;
}

// What Python's binascii.crc_hqx(data, 0xFFFF) says of each string: the outside opinion on
// CRC-16/IBM-3740.
std::vector<unsigned> python_crcs(const std::vector<Bytes>& strings) {
  std::string command =
      "python3 -c 'import binascii, sys\n"
      "for text in sys.argv[1:]: print(binascii.crc_hqx(bytes.fromhex(text), 0xFFFF))'";
  for (const Bytes& bytes : strings) command += " " + to_hex(bytes);

  FILE* python = popen(command.c_str(), "r");
  REQUIRE(python != nullptr);
  std::vector<unsigned> crcs;
  unsigned crc = 0;
  while (std::fscanf(python, "%u", &crc) == 1) crcs.push_back(crc);
  REQUIRE(pclose(python) == 0);
  return crcs;
}

}  // namespace

TEST_CASE("CRC-16/IBM-3740 is what Python's binascii.crc_hqx computes from FFFFh") {
  std::mt19937 random(3740);
  std::vector<Bytes> strings;
  for (const std::size_t count : {1U, 2U, 9U, 34U, 64U, 114U, 128U}) {
    Bytes bytes(count);
    for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(random());
    strings.push_back(bytes);
  }

  const std::vector<unsigned> expected = python_crcs(strings);
  REQUIRE(expected.size() == strings.size());
  for (std::size_t i = 0; i < strings.size(); ++i) {
    INFO(to_hex(strings[i]));
    CHECK(Crc(crc_models::ibm_3740)(strings[i]) == expected[i]);
    CHECK(crc_bitwise(crc_models::ibm_3740, strings[i]) == expected[i]);
  }
}
