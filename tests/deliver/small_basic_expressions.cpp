#include <algorithm>
#include <cctype>
#include <sstream>

#include "deliver/small_basic.h"

// How SmallBasic computes; its statements are in small_basic.cpp.

namespace rtcmend::test {

namespace {

int truth(bool value) {
  return value ? -1 : 0;
}

std::string hex(int value) {
  std::ostringstream digits;
  digits << std::uppercase << std::hex << (value & 0xFFFF);
  return digits.str();
}

/// VAL("&H4F"): digits up to the first character that is none.
int hex_value(const std::string& text) {
  int value = 0;
  for (std::size_t i = 2; i < text.size() && std::isxdigit(static_cast<unsigned char>(text[i]));
       ++i)
    value = value * 16 + std::stoi(text.substr(i, 1), nullptr, 16);
  return value;
}

/// VAL("14:30") is 14.
int decimal_value(const std::string& text) {
  int value = 0;
  for (std::size_t i = 0; i < std::min<std::size_t>(text.size(), 6); ++i) {
    if (!std::isdigit(static_cast<unsigned char>(text[i]))) break;
    value = value * 10 + (text[i] - '0');
  }
  return value;
}

}  // namespace

int SmallBasic::number() {
  const Value value = expression();
  if (value.is_text) fail("type mismatch");
  return value.number;
}

std::string SmallBasic::text() {
  const Value value = expression(8);
  if (!value.is_text) fail("type mismatch");
  return value.text;
}

/// Levels, loosest first: XOR, OR, AND, NOT, comparison, + -, MOD, \, * .
SmallBasic::Value SmallBasic::expression(int level) {
  static const std::vector<std::vector<std::string>> operators{
      {"XOR"}, {"OR"}, {"AND"}, {}, {"<>", "<", ">", "="}, {"+", "-"}, {"MOD"}, {"\\"}, {"*"}};
  if (level == 3 && take("NOT")) return {false, ~expression(4).number, {}};
  if (level == 9) return operand();
  Value left = expression(level + 1);
  for (;;) {
    std::string found;
    for (const std::string& candidate : operators[static_cast<std::size_t>(level)])
      if (found.empty() && take(candidate)) found = candidate;
    if (found.empty()) return left;
    const Value right = expression(level + 1);
    if (left.is_text != right.is_text) fail("type mismatch");
    if (left.is_text) {
      if (found == "+")
        left.text += right.text;
      else if (found == "=" || found == "<>")
        left = {false, truth((left.text == right.text) == (found == "=")), {}};
      else
        fail("no such operation on texts");
      continue;
    }
    const int a = left.number, b = right.number;
    if ((found == "\\" || found == "MOD") && b == 0) fail("division by zero");
    int result = 0;
    if (found == "XOR") result = a ^ b;
    if (found == "OR") result = a | b;
    if (found == "AND") result = a & b;
    if (found == "=") result = truth(a == b);
    if (found == "<>") result = truth(a != b);
    if (found == "<") result = truth(a < b);
    if (found == ">") result = truth(a > b);
    if (found == "+") result = a + b;
    if (found == "-") result = a - b;
    if (found == "MOD") result = a % b;
    if (found == "\\") result = a / b;
    if (found == "*") result = a * b;
    if (result < -32768 || result > 32767) fail("overflow");
    left.number = result;
  }
}

SmallBasic::Value SmallBasic::operand() {
  const std::string& line = spot_.line->second;
  if (take("(")) {
    const Value value = expression();
    need(")");
    return value;
  }
  if (peek() == '"') {
    const auto end = line.find('"', spot_.at + 1);
    if (end == std::string::npos) fail("a text without end");
    Value value{true, 0, line.substr(spot_.at + 1, end - spot_.at - 1)};
    spot_.at = end + 1;
    return value;
  }
  if (take("&H")) {
    const std::size_t start = spot_.at;
    while (spot_.at < line.size() && std::isxdigit(static_cast<unsigned char>(line[spot_.at])))
      ++spot_.at;
    return {false, hex_value("&H" + line.substr(start, spot_.at - start)), {}};
  }
  if (std::isdigit(static_cast<unsigned char>(peek()))) return {false, whole_number(), {}};
  if (take("ERR")) return {false, 1, {}};
  if (take("ERL")) return {false, error_line_, {}};
  for (const char* function :
       {"MID$", "RIGHT$", "HEX$", "STR$", "INSTR", "LEN", "VAL", "INP", "PEEK"})
    if (take(std::string(function) + "(")) return arguments_of(function);
  const std::string variable = name();
  if (peek() == '(') return {false, element(variable), {}};
  if (variable.back() == '$') return {true, 0, texts_[variable]};
  return {false, numbers_[variable], {}};
}

SmallBasic::Value SmallBasic::arguments_of(const std::string& function) {
  std::vector<Value> given;
  do given.push_back(expression());
  while (take(","));
  need(")");
  const Value& first = given[0];
  if (function == "HEX$") return {true, 0, hex(first.number)};
  if (function == "PEEK")
    return {false, segment_ == 0x40 && first.number == 0x4A ? columns : 0, {}};
  if (function == "INP") return {false, on_in(first.number), {}};
  if (function == "STR$")
    return {true, 0, (first.number < 0 ? "" : " ") + std::to_string(first.number)};
  if (function == "INSTR") {
    if (given.size() < 2) fail("syntax error");
    const auto found = first.text.find(given[1].text);
    return {false, found == std::string::npos ? 0 : static_cast<int>(found) + 1, {}};
  }
  if (function == "LEN") return {false, static_cast<int>(first.text.size()), {}};
  if (function == "VAL") {
    const int value =
        first.text.starts_with("&H") ? hex_value(first.text) : decimal_value(first.text);
    if (value > 32767) fail("overflow");
    return {false, value, {}};
  }
  if ((function == "RIGHT$" && given.size() < 2) || (function == "MID$" && given.size() < 3))
    fail("syntax error");
  if (function != "HEX$" && !first.is_text) fail("type mismatch");
  if (function == "RIGHT$") {
    if (given[1].number < 0) fail("illegal function call");
    const auto count = std::min(static_cast<std::size_t>(given.at(1).number), first.text.size());
    return {true, 0, first.text.substr(first.text.size() - count)};
  }
  const int start = given.at(1).number;
  if (start < 1) fail("illegal function call");
  if (static_cast<std::size_t>(start) > first.text.size()) return {true, 0, ""};
  return {true, 0,
          first.text.substr(static_cast<std::size_t>(start) - 1,
                            static_cast<std::size_t>(given.at(2).number))};
}

}  // namespace rtcmend::test
