#include "deliver/small_basic.h"

#include <algorithm>
#include <cctype>
#include <sstream>

namespace rtcmend::test {

namespace {

constexpr std::size_t most_statements = 2'000'000;

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

}  // namespace

SmallBasic::SmallBasic(const std::string& listing) {
  std::istringstream lines(listing);
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line.back() != '\r') throw std::runtime_error("a line without CR LF");
    line.pop_back();
    if (line.size() > 250) throw std::runtime_error("a line that the BASIC editor cannot hold");
    const auto blank = line.find(' ');
    const int number = std::stoi(line.substr(0, blank));
    if (!program_.empty() && program_.rbegin()->first >= number)
      throw std::runtime_error("line numbers do not ascend at " + line);
    program_[number] = line.substr(blank + 1);
  }
}

void SmallBasic::run() {
  for (const auto& [number, line] : program_)
    if (line.starts_with("DATA ")) data_.push_back(line.substr(5));
  spot_ = {program_.begin(), 0};
  for (std::size_t count = 0; count < most_statements; ++count)
    if (!statement()) return;
  fail("it never ends");
}

void SmallBasic::fail(const std::string& what) const {
  throw std::runtime_error(
      what + " in line " + std::to_string(spot_.line->first) + " at " +
      spot_.line->second.substr(std::min(spot_.at, spot_.line->second.size())));
}

// --- Statements ---

bool SmallBasic::statement() {
  while (peek() == ':') ++spot_.at;
  if (peek() == '\0') {
    if (++spot_.line == program_.end()) return false;
    spot_.at = 0;
    return true;
  }
  if (take("REM") || take("DATA") || take("ELSE")) {
    skip_line();
  } else if (take("DEFINT")) {
    need("A-Z");
  } else if (take("DIM")) {
    dim();
  } else if (take("FOR")) {
    for_loop();
  } else if (take("NEXT")) {
    next();
  } else if (take("READ")) {
    read();
  } else if (take("IF")) {
    if_then();
  } else if (take("GOSUB")) {
    const int line = whole_number();
    returns_.push_back(spot_);
    go_to(line);
  } else if (take("RETURN")) {
    if (returns_.empty()) fail("RETURN without GOSUB");
    spot_ = returns_.back();
    returns_.pop_back();
  } else if (take("GOTO")) {
    go_to(whole_number());
  } else if (take("PRINT")) {
    print();
  } else if (take("INPUT")) {
    input();
  } else if (take("OPEN")) {
    open();
  } else if (take("CLOSE")) {
    need("#1");
  } else if (take("OUT")) {
    const int port = number();
    need(",");
    on_out(port, number());
  } else if (take("END")) {
    return false;
  } else {
    let();
  }
  return true;
}

void SmallBasic::skip_line() {
  spot_.at = spot_.line->second.size();
}

void SmallBasic::go_to(int line) {
  const auto found = program_.find(line);
  if (found == program_.end()) fail("no line " + std::to_string(line));
  spot_ = {found, 0};
}

void SmallBasic::let() {
  const std::string variable = name();
  if (peek() == '(') {
    int& target = element(variable);
    need("=");
    target = number();
    return;
  }
  need("=");
  assign(variable, expression());
}

void SmallBasic::assign(const std::string& variable, const Value& value) {
  if ((variable.back() == '$') != value.is_text) fail("type mismatch");
  if (value.is_text)
    texts_[variable] = value.text;
  else
    numbers_[variable] = value.number;
}

void SmallBasic::dim() {
  do {
    const std::string array = name();
    need("(");
    arrays_[array].assign(static_cast<std::size_t>(number()) + 1, 0);
    need(")");
  } while (take(","));
}

void SmallBasic::read() {
  const std::string variable = name();
  if (next_data_ == data_.size()) fail("out of DATA");
  assign(variable, {true, 0, data_[next_data_++]});
}

void SmallBasic::for_loop() {
  Loop loop;
  loop.variable = name();
  need("=");
  numbers_[loop.variable] = number();
  need("TO");
  loop.limit = number();
  if (take("STEP")) loop.step = number();
  loop.body = spot_;
  std::erase_if(loops_, [&](const Loop& old) { return old.variable == loop.variable; });
  loops_.push_back(loop);
}

void SmallBasic::next() {
  const std::string variable = name();
  while (!loops_.empty() && loops_.back().variable != variable) loops_.pop_back();
  if (loops_.empty()) fail("NEXT without FOR");
  int& value = numbers_[variable];
  value += loops_.back().step;
  if (value <= loops_.back().limit)
    spot_ = loops_.back().body;
  else
    loops_.pop_back();
}

void SmallBasic::if_then() {
  const bool holds = number() != 0;
  need("THEN");
  if (!holds) {
    const std::string& line = spot_.line->second;
    bool quoted = false;
    int inner = 0;
    for (; spot_.at < line.size(); ++spot_.at) {
      if (line[spot_.at] == '"') quoted = !quoted;
      if (quoted) continue;
      if (line.compare(spot_.at, 3, "IF ") == 0) ++inner;
      if (line.compare(spot_.at, 5, "ELSE ") == 0 && inner-- == 0) break;
    }
    if (!take("ELSE")) return;
  }
  if (std::isdigit(static_cast<unsigned char>(peek()))) go_to(whole_number());
}

void SmallBasic::print() {
  std::string line;
  const bool to_file = take("#1");
  if (to_file) need(",");
  bool open_end = false;
  while (peek() != '\0' && peek() != ':' && spot_.line->second.compare(spot_.at, 4, "ELSE") != 0) {
    if (take(";")) {
      open_end = true;
      continue;
    }
    const Value value = expression();
    line += value.is_text ? value.text
                          : (value.number < 0 ? "" : " ") + std::to_string(value.number) + " ";
    open_end = false;
  }
  (to_file ? files[file_] : screen) += line + (open_end ? "" : "\r\n");
}

void SmallBasic::input() {
  if (peek() == '"') {
    screen += text() + "? ";
    need(";");
  }
  if (next_answer_ == answers.size()) fail("no answer left");
  std::istringstream given(answers[next_answer_++]);
  screen += given.str() + "\r\n";
  do {
    const std::string variable = name();
    std::string item;
    std::getline(given, item, ',');
    const bool is_text = variable.back() == '$';
    assign(variable, {is_text, is_text ? 0 : std::stoi(item), item});
  } while (take(","));
}

void SmallBasic::open() {
  file_ = text();
  need("FOR");
  need("OUTPUT");
  need("AS");
  need("#1");
  files[file_].clear();
}

// --- Expressions ---

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
  for (const char* function : {"MID$", "RIGHT$", "HEX$", "LEN", "VAL", "INP"})
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
  if (function == "INP") return {false, on_in(first.number), {}};
  if (function == "LEN") return {false, static_cast<int>(first.text.size()), {}};
  if (function == "VAL") {
    if (!first.text.starts_with("&H")) fail("VAL of something else");
    return {false, hex_value(first.text), {}};
  }
  if (function == "RIGHT$") {
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

// --- Words ---

char SmallBasic::peek() {
  const std::string& line = spot_.line->second;
  while (spot_.at < line.size() && line[spot_.at] == ' ') ++spot_.at;
  return spot_.at < line.size() ? line[spot_.at] : '\0';
}

bool SmallBasic::take(const std::string& word) {
  peek();
  if (spot_.line->second.compare(spot_.at, word.size(), word) != 0) return false;
  const char behind = spot_.at + word.size() < spot_.line->second.size()
                          ? spot_.line->second[spot_.at + word.size()]
                          : ' ';
  const bool is_word = std::isalpha(static_cast<unsigned char>(word.back())) != 0;
  if (is_word && word != "&H" && std::isalnum(static_cast<unsigned char>(behind))) return false;
  spot_.at += word.size();
  return true;
}

void SmallBasic::need(const std::string& word) {
  if (!take(word)) fail("syntax error, " + word + " expected");
}

std::string SmallBasic::name() {
  const char letter = peek();
  if (letter < 'A' || letter > 'Z') fail("syntax error");
  const std::string& line = spot_.line->second;
  std::string found(1, line[spot_.at++]);
  if (spot_.at < line.size() && std::isalnum(static_cast<unsigned char>(line[spot_.at])))
    fail("a longer name than listings use");
  if (spot_.at < line.size() && line[spot_.at] == '$') found += line[spot_.at++];
  return found;
}

int SmallBasic::whole_number() {
  peek();
  std::string digits;
  const std::string& line = spot_.line->second;
  while (spot_.at < line.size() && std::isdigit(static_cast<unsigned char>(line[spot_.at])))
    digits += line[spot_.at++];
  if (digits.empty()) fail("a number expected");
  return std::stoi(digits);
}

int& SmallBasic::element(const std::string& array) {
  need("(");
  const int index = number();
  need(")");
  auto& elements = arrays_[array];
  if (index < 0 || static_cast<std::size_t>(index) >= elements.size())
    fail("subscript out of range");
  return elements[static_cast<std::size_t>(index)];
}

}  // namespace rtcmend::test
