#include "check/crc.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <string_view>
#include <vector>

using namespace rtcmend;

namespace {

using Bytes = std::vector<std::uint8_t>;

// The nine bytes that the catalogue's check values are made of.
const Bytes nine{'1', '2', '3', '4', '5', '6', '7', '8', '9'};

struct Published {
  std::string_view name;
  CrcModel model;
  std::uint16_t check;
};

// CRC-cat: width, poly, init, refin, refout, xorout, check.
const Published catalogue[] = {
    {"CRC-16/ARC", {16, 0x8005, 0x0000, true, true, 0x0000}, 0xBB3D},
    {"CRC-16/IBM-3740", {16, 0x1021, 0xFFFF, false, false, 0x0000}, 0x29B1},
    {"CRC-16/XMODEM", {16, 0x1021, 0x0000, false, false, 0x0000}, 0x31C3},
    {"CRC-16/KERMIT", {16, 0x1021, 0x0000, true, true, 0x0000}, 0x2189},
    {"CRC-16/IBM-SDLC", {16, 0x1021, 0xFFFF, true, true, 0xFFFF}, 0x906E},
    {"CRC-16/MODBUS", {16, 0x8005, 0xFFFF, true, true, 0x0000}, 0x4B37},
    {"CRC-16/DDS-110", {16, 0x8005, 0x800D, false, false, 0x0000}, 0x9ECF},
    {"CRC-16/DNP", {16, 0x3D65, 0x0000, true, true, 0xFFFF}, 0xEA82},
    {"CRC-8/SMBUS", {8, 0x07, 0x00, false, false, 0x00}, 0xF4},
    {"CRC-8/MAXIM-DOW", {8, 0x31, 0x00, true, true, 0x00}, 0xA1},
};

Bytes random_bytes(std::size_t count, std::mt19937& random) {
  Bytes bytes(count);
  for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(random());
  return bytes;
}

CrcModel random_model(unsigned width, std::mt19937& random) {
  const auto mask = static_cast<std::uint16_t>(width == 8 ? 0xFF : 0xFFFF);
  const auto word = [&] { return static_cast<std::uint16_t>(random() & mask); };
  const auto coin = [&] { return (random() & 1U) != 0; };
  return {width, word(), word(), coin(), coin(), word()};
}

}  // namespace

TEST_CASE("every model gives the catalogue's check value (CRC-cat)") {
  for (const Published& published : catalogue) {
    INFO(published.name);
    CHECK(crc_bitwise(published.model, nine) == published.check);
    CHECK(Crc(published.model)(nine) == published.check);
  }
}

TEST_CASE("the named models are the catalogue's (CRC-cat)") {
  CHECK(Crc(crc_models::ibm_3740)(nine) == 0x29B1);
  CHECK(Crc(crc_models::smbus)(nine) == 0xF4);
}

TEST_CASE("a register mirrored on one side only gives the check value mirrored") {
  // BB3Dh, 31C3h and F4h (CRC-cat), their bits written down the other way round by hand.
  const CrcModel arc_unmirrored{16, 0x8005, 0x0000, true, false, 0x0000};
  const CrcModel xmodem_mirrored{16, 0x1021, 0x0000, false, true, 0x0000};
  const CrcModel smbus_mirrored{8, 0x07, 0x00, false, true, 0x00};
  CHECK(crc_bitwise(arc_unmirrored, nine) == 0xBCDD);
  CHECK(Crc(arc_unmirrored)(nine) == 0xBCDD);
  CHECK(crc_bitwise(xmodem_mirrored, nine) == 0xC38C);
  CHECK(Crc(xmodem_mirrored)(nine) == 0xC38C);
  CHECK(crc_bitwise(smbus_mirrored, nine) == 0x2F);
  CHECK(Crc(smbus_mirrored)(nine) == 0x2F);
}

TEST_CASE("no bytes leave the start value, mirrored and inverted as the model says") {
  CHECK(crc_bitwise({16, 0x1021, 0x1234, false, false, 0x0000}, {}) == 0x1234);
  CHECK(Crc({16, 0x1021, 0x1234, false, false, 0x0000})({}) == 0x1234);
  CHECK(crc_bitwise({16, 0x1021, 0x0001, true, true, 0xFFFF}, {}) == 0x7FFF);
  CHECK(Crc({16, 0x1021, 0x0001, true, true, 0xFFFF})({}) == 0x7FFF);
}

TEST_CASE("the table agrees with the definition on random models and bytes") {
  std::mt19937 random(146818);
  for (int round = 0; round < 400; ++round) {
    const CrcModel model = random_model(round % 2 == 0 ? 16 : 8, random);
    const Bytes bytes = random_bytes(random() % 130, random);
    INFO("width " << model.width << " poly " << model.poly << " init " << model.init << " refin "
                  << model.refin << " refout " << model.refout << ", " << bytes.size() << " bytes");
    REQUIRE(Crc(model)(bytes) == crc_bitwise(model, bytes));
  }
}

TEST_CASE("a flipped bit is found by the difference it makes, whatever the model and the message") {
  std::mt19937 random(5);
  for (int round = 0; round < 60; ++round) {
    CrcModel model = random_model(round % 2 == 0 ? 16 : 8, random);
    model.poly |= 1;
    Bytes message = random_bytes(1 + random() % 60, random);
    const std::uint16_t before = crc_bitwise(model, message);
    const std::size_t byte = random() % message.size();
    const unsigned bit = random() % 8;
    message[byte] = static_cast<std::uint8_t>(message[byte] ^ (1U << bit));
    const auto difference = static_cast<std::uint16_t>(before ^ crc_bitwise(model, message));
    const auto places = crc_bit_places(model, message.size(), difference);
    CHECK(std::any_of(places.begin(), places.end(), [&](const BitPlace& place) {
      return place.byte == byte && place.bit == bit;
    }));
  }
}

TEST_CASE("no bit place is named that does not make the difference") {
  const Bytes message(34, 0x5A);
  const std::uint16_t before = crc_bitwise(crc_models::ibm_3740, message);
  for (std::size_t byte = 0; byte < message.size(); ++byte)
    for (unsigned bit = 0; bit < 8; ++bit) {
      Bytes flipped = message;
      flipped[byte] = static_cast<std::uint8_t>(flipped[byte] ^ (1U << bit));
      const auto difference =
          static_cast<std::uint16_t>(before ^ crc_bitwise(crc_models::ibm_3740, flipped));
      const auto places = crc_bit_places(crc_models::ibm_3740, message.size(), difference);
      // In a message as short as this every bit makes a difference of its own.
      REQUIRE(places.size() == 1);
      CHECK(places[0].byte == byte);
      CHECK(places[0].bit == bit);
    }
  CHECK(crc_bit_places(crc_models::ibm_3740, message.size(), 0).empty());
}

TEST_CASE("eight bytes at a step give the same as a bit at a time, at every length to 40") {
  std::mt19937 random(6);
  for (std::size_t length = 0; length <= 40; ++length)
    for (int round = 0; round < 8; ++round) {
      const CrcModel model = random_model(round % 2 == 0 ? 16 : 8, random);
      const Bytes message = random_bytes(length, random);
      CHECK(Crc(model)(message) == crc_bitwise(model, message));
    }
}
