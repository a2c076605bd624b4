#include "deliver/small_basic.h"

#include <algorithm>
#include <cctype>
#include <sstream>

namespace rtcmend::test {

namespace {

constexpr std::size_t most_statements = 300'000;

/// As BASIC keeps a line: capitals, but for texts in quotes.
std::string capitals(std::string line) {
  bool quoted = false;
  for (char& c : line) {
    if (c == '"') quoted = !quoted;
    if (!quoted) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  }
  return line;
}

}  // namespace

SmallBasic::SmallBasic(const std::string& listing) {
  std::istringstream lines(listing);
  for (std::string line; std::getline(lines, line);) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    if (line.size() > 250) throw std::runtime_error("a line that the BASIC editor cannot hold");
    std::size_t digits = 0;
    while (digits < line.size() && std::isdigit(static_cast<unsigned char>(line[digits]))) ++digits;
    if (digits == 0 || digits > 5) continue;
    const int number = std::stoi(line.substr(0, digits));
    if (number > 65529) continue;
    const auto text = line.find_first_not_of(' ', digits);
    if (text == std::string::npos)
      program_.erase(number);
    else
      program_[number] = capitals(line.substr(text));
  }
}

void SmallBasic::run() {
  for (const auto& [number, line] : program_)
    if (line.starts_with("DATA ")) data_.push_back(line.substr(5));
  if (program_.empty()) return;
  spot_ = {program_.begin(), 0};
  for (std::size_t count = 0; count < most_statements; ++count) {
    try {
      if (!statement()) return;
    } catch (const std::runtime_error& error) {
      on_error(error);
    }
  }
  throw NobodyAnswers("it never ends");
}

void SmallBasic::on_error(const std::runtime_error& error) {
  if (handler_ == 0 || handling_ || !program_.contains(handler_)) throw error;
  handling_ = true;
  error_line_ = spot_.line->first;
  go_to(handler_);
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
    const int value = number();
    if (value < 0 || value > 255) fail("illegal function call");
    on_out(port, value);
  } else if (take("DEF")) {
    need("SEG");
    need("=");
    segment_ = number();
  } else if (take("ON")) {
    need("ERROR");
    need("GOTO");
    handler_ = whole_number();
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
    const int most = number();
    if (most < 0) fail("illegal function call");
    arrays_[array].assign(static_cast<std::size_t>(most) + 1, 0);
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
    if (!take(",")) need(";");
  }
  if (next_answer_ == answers.size()) throw NobodyAnswers("no answer left");
  std::istringstream given(answers[next_answer_++]);
  screen += given.str() + "\r\n";
  do {
    const std::string variable = name();
    std::string item;
    std::getline(given, item, ',');
    const bool is_text = variable.back() == '$';
    if (!is_text && (item.empty() || item.find_first_not_of("0123456789") != std::string::npos))
      throw NobodyAnswers("?Redo from start");
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
  while (spot_.at < line.size() && std::isalnum(static_cast<unsigned char>(line[spot_.at])))
    found += line[spot_.at++];
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
  if (digits.size() > 5) fail("overflow");
  return std::stoi(digits);
}

int& SmallBasic::element(const std::string& array) {
  need("(");
  const int index = number();
  need(")");
  auto& elements = arrays_[array];
  if (elements.empty()) elements.assign(11, 0);
  if (index < 0 || static_cast<std::size_t>(index) >= elements.size())
    fail("subscript out of range");
  return elements[static_cast<std::size_t>(index)];
}

}  // namespace rtcmend::test
