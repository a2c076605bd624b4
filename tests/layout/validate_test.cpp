#include "layout/validate.h"

#include <catch2/catch.hpp>
#include <string>

#include "layout/codec.h"
#include "layout/made_up.h"

using namespace rtcmend;

namespace {

/// What is said of a layout with the one field.
std::string of_field(const std::string& rest) {
  return complaint(fields(field(rest)));
}

/// What is said of a second field `f` that follows the field `lead`, number in 10h.
std::string of_follower(const std::string& rest) {
  return complaint(fields(field(R"("at": "10", "number": {})", "lead") + ", " +
                          field(R"("at": "20", )" + rest)));
}

std::string of_check(const std::string& rule, const std::string& order = "") {
  return complaint(check(rule + R"(, "over": ["10-1F"], "stored": {"at": "2E")" + order + "}"));
}

std::string at_field(const std::string& what) {
  return "mine.json at /fields/0: " + what;
}

std::string at_follower(const std::string& what) {
  return "mine.json at /fields/1: " + what;
}

std::string at_check(const std::string& what) {
  return "mine.json at /checks/0: " + what;
}

}  // namespace

TEST_CASE("a field stands in one place, told in one way") {
  CHECK(of_field(R"("number": {})") == at_field(R"(a field says either "at" or "pieces")"));
  CHECK(of_field(R"("at": "10", "pieces": [{"at": "11"}], "number": {})") ==
        at_field(R"(a field says either "at" or "pieces")"));
  CHECK(of_field(R"("at": "10-11", "bits": [3, 0], "number": {})") ==
        at_field("bits belong to one byte"));
  CHECK(of_field(R"("at": "11-10", "text": {})") == at_field("\"11-10\" is not a range"));
}

TEST_CASE("pieces come most significant first, and take no order or bits beside them") {
  const std::string pieces = R"("pieces": [{"at": "10"}, {"at": "11"}], "number": {})";
  CHECK(of_field(pieces) == "accepted");
  CHECK(of_field(pieces + R"(, "order": "low-first")") ==
        at_field("\"pieces\" say their own bits and order"));
  CHECK(of_field(pieces + R"(, "bits": [3, 0])") ==
        at_field("\"pieces\" say their own bits and order"));
}

TEST_CASE("every value over several bytes needs its order") {
  const std::string needed = at_field("a value over several bytes needs its \"order\"");
  CHECK(of_field(R"("at": "10-11", "bcd": {})") == needed);
  CHECK(of_field(R"("at": "10-11", "choice": {"1": "one"})") == needed);
  CHECK(of_field(R"("at": "10-11", "bytes": {})") == "accepted");
}

TEST_CASE("a field means one thing") {
  CHECK(of_field(R"("at": "10")") ==
        at_field("it says none of number, bcd, choice, flag, bytes, text, private"));
}

TEST_CASE("the bits of a field fit what they mean") {
  CHECK(of_field(R"("at": "10", "bits": [6, 0], "text": {})") ==
        at_field("bytes and text take whole bytes, not bits"));
  CHECK(of_field(R"("at": "10", "bits": [6, 0], "private": {})") == "accepted");
  CHECK(of_field(R"("at": "10-14", "order": "low-first", "number": {})") ==
        at_field("it has 40 bits, and a number takes up to 32"));
  CHECK(of_field(R"("at": "10", "bits": [4, 0], "bcd": {})") ==
        at_field("BCD takes four bits a digit, so its bits come in fours"));
}

TEST_CASE("the keys of a choice are stored numbers, each written in one way") {
  const auto of_key = [](const std::string& key) {
    return of_field(R"("at": "10-11", "order": "low-first", "choice": {")" + key + R"(": "word"})");
  };
  CHECK(of_key("0") == "accepted");
  CHECK(of_key("65535") == "accepted");
  for (const char* key : {"65536", "01", "-1", "+1", "1 ", "1.0", "x", ""})
    CHECK(of_key(key) ==
          "mine.json at /fields/0/choice: \"" + std::string(key) + "\" is not a stored number");
}

TEST_CASE("the codes of a choice fit in its bits and have different names") {
  CHECK(of_field(R"("at": "10", "bits": [1, 0], "choice": {"3": "three"})") == "accepted");
  CHECK(of_field(R"("at": "10", "bits": [1, 0], "choice": {"4": "four"})") ==
        at_field("the code 4 does not fit in 2 bits"));
  CHECK(of_field(R"("at": "10", "choice": {"0": "off", "1": "off"})") ==
        at_field("two codes are named \"off\""));
}

TEST_CASE("a range rises and holds only what the bits can store") {
  CHECK(of_field(R"("at": "10", "number": {"range": [9, 0]})") ==
        at_field("its range ends before it begins"));
  CHECK(of_field(R"("at": "10", "number": {"range": [0, 255]})") == "accepted");
  CHECK(of_field(R"("at": "10", "number": {"range": [0, 256]})") ==
        at_field("its range goes past what its bits can hold, 0-255"));
  CHECK(of_field(R"("at": "10", "number": {"range": [-1, 9]})") ==
        at_field("its range goes past what its bits can hold, 0-255"));
  CHECK(of_field(R"("at": "10", "number": {"scale": 64, "offset": 64, "range": [64, 16384]})") ==
        "accepted");
  CHECK(of_field(R"("at": "10", "number": {"scale": 64, "offset": 64, "range": [0, 64]})") ==
        at_field("its range goes past what its bits can hold, 64-16384"));
  CHECK(of_field(R"("at": "10", "bcd": {"range": [0, 99]})") == "accepted");
  CHECK(of_field(R"("at": "10", "bcd": {"range": [0, 100]})") ==
        at_field("its range goes past what its bits can hold, 0-99"));
}

TEST_CASE("an escape belongs to a number, and its code and range fit") {
  const std::string nibble = R"("at": "10", "bits": [3, 0], "number": {}, )";
  CHECK(of_field(nibble + R"("escape": {"when": 15, "at": "11", "range": [16, 255]})") ==
        "accepted");
  CHECK(of_field(nibble + R"("escape": {"when": 16, "at": "11", "range": [16, 255]})") ==
        at_field("its escape code does not fit in its bits"));
  CHECK(of_field(nibble + R"("escape": {"when": 15, "at": "11", "range": [99, 16]})") ==
        at_field("its escape range ends before it begins"));
  CHECK(
      of_field(R"("at": "10", "bcd": {}, "escape": {"when": 15, "at": "11", "range": [16, 99]})") ==
      at_field("only a number can have an escape"));
  CHECK(of_field(nibble + R"("escape": {"when": 15, "at": "10", "range": [16, 99]})") ==
        at_field("f claims bit 0 of 10h, which f has already"));
}

TEST_CASE("a condition looks at bits of the chip, for a value that they can hold") {
  const std::string flag = R"("at": "10", "bits": [0, 0], "flag": {}, )";
  CHECK(of_field(flag + R"("when": {"at": "3F", "bits": [1, 0], "is": 3})") == "accepted");
  CHECK(of_field(flag + R"("when": [{"at": "3F", "range": [1, 3]}, {"at": "3E", "is": 1}])") ==
        "accepted");
  CHECK(of_field(flag + R"("when": {"at": "3F", "range": [3, 1]})") ==
        at_field("its condition's range ends before it begins"));
  CHECK(of_field(flag + R"("when": {"at": "3F"})") ==
        at_field("a condition says either \"is\" or \"range\""));
  CHECK(of_field(flag + R"("when": {"at": "3F", "bits": [1, 0], "is": 4})") ==
        at_field("the condition's value 4 does not fit in its bits"));
}

TEST_CASE("a field follows others in one way, and one that fits its kind") {
  CHECK(of_follower(R"("number": {}, "follows": {"same": "lead"})") == "accepted");
  CHECK(of_follower(R"("number": {}, "follows": {"same": "lead", "any": ["lead"]})") ==
        at_follower("\"follows\" says one of count, any, same"));
  CHECK(of_follower(R"("number": {}, "follows": {"least": 1})") ==
        at_follower("\"follows\" says one of count, any, same"));
  CHECK(of_follower(R"("number": {}, "follows": {"any": ["lead"]})") ==
        at_follower("a field that follows \"any\" is a flag"));
  CHECK(of_follower(R"("bcd": {}, "follows": {"count": ["lead"]})") ==
        at_follower("a field that follows a \"count\" is a number"));
  CHECK(of_follower(R"("bcd": {}, "follows": {"same": "lead"})") ==
        at_follower("it follows \"lead\", which is of another kind"));
  CHECK(of_follower(R"("number": {}, "follows": {"same": "f"})") ==
        at_follower("it follows \"f\", which itself follows another field"));
}

TEST_CASE("no name stands for two things") {
  const std::string one = field(R"("at": "10", "number": {})");
  CHECK(complaint(fields(one + ", " + field(R"("at": "11", "number": {})"))) ==
        at_follower("the field \"f\" is defined twice"));
  CHECK(complaint(fields(field(R"("at": "10", "number": {})", "c")) +
                  check(R"("xor": {}, "over": ["11"], "stored": {"at": "12"})")) ==
        at_check("the name \"c\" is taken already"));
}

TEST_CASE("a check has one rule, and the order of its two bytes") {
  CHECK(complaint(check(R"("over": ["10"], "stored": {"at": "12"})")) ==
        at_check("a check has exactly one of sum, xor, crc, balance"));
  CHECK(of_check(R"("xor": {}, "balance": {"target": "AA"})") ==
        at_check("a check has exactly one of sum, xor, crc, balance"));
  CHECK(of_check(R"("sum": {"width": 16})") ==
        at_check("a 16-bit check needs the \"order\" of its two stored bytes"));
  CHECK(of_check(R"("sum": {"width": 8})") == "accepted");
}

TEST_CASE("the numbers of a check fit its width") {
  const auto crc = [](const std::string& poly, const std::string& init) {
    return R"("crc": {"width": 8, "poly": ")" + poly + R"(", "init": ")" + init +
           R"(", "refin": false, "refout": false, "xorout": "00"})";
  };
  CHECK(of_check(crc("07", "FF")) == "accepted");
  CHECK(of_check(crc("07", "FFFF")) ==
        at_check("the parameters of an 8-bit CRC are two hex digits each"));
  CHECK(of_check(crc("06", "FF")) ==
        at_check("the polynomial has no constant term, so it would not see every byte"));
  CHECK(of_check(R"("sum": {"width": 8, "start": "0100"})") ==
        at_check("an 8-bit sum starts from two hex digits"));
  CHECK(of_check(R"("sum": {"width": 8, "pairs": "low-first"})") ==
        at_check("a sum of byte pairs has 16 bits"));
}

TEST_CASE("a check of nothing but a password would give it away") {
  const auto password_at = [](const std::string& at) {
    return complaint(fields(field(R"("private": {}, "at": ")" + at + '"')) +
                     check(R"("xor": {}, "over": ["10-1F"], "stored": {"at": "2E"})"));
  };
  CHECK(password_at("10-1F") ==
        at_check("it covers nothing but a password, and its value would give that away"));
  CHECK(password_at("10-1E") == "accepted");
  CHECK(password_at("11-20") == "accepted");
}

TEST_CASE("a sum is read with its start, its sign, its pairs and its condition") {
  const Layout layout = load(check(
      R"("sum": {"width": 16, "start": "00FF", "sign": "complemented", "pairs": "low-first"}, )"
      R"("over": ["10-1F", {"range": "20-21", "when": {"at": "30", "bits": [7, 6], "is": 2}}], )"
      R"("stored": {"at": "2E", "order": "low-first"}, "when": {"at": "31", "is": 5})"));
  const Check& read = layout.checks.at(0);
  CHECK(std::get<SumRule>(read.rule) == SumRule{16, 0x00FF, Sign::complemented, Order::low_first});
  CHECK(read.order == Order::low_first);
  CHECK(read.over.at(1) == Covered{{0x20, 0x21}, Condition{0x30, 0xC0, 0x80}});
  CHECK(read.when == Condition{0x31, 0xFF, 0x05});
}

TEST_CASE("the keys of decimal digits are those that mean something for digits") {
  CHECK(of_field(R"("at": "10", "bcd": {"scale": 5})") ==
        "mine.json at /fields/0/bcd: the layout schema has no key \"scale\" here");
}
