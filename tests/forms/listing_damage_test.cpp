#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>

#include "base/text.h"
#include "forms/collection.h"
#include "forms/samples.h"

// What copying does to a listing, done to every listing of the collection at every place where it
// can happen. Whatever comes out: the right bytes, bytes left unknown, a warning, or a refusal;
// never a wrong byte without a warning.

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

struct Damage {
  std::string name;
  bool harmless;  ///< nothing is lost by it, so that the bytes must come out right
  /// All the ways to do it to a text.
  std::function<std::vector<std::string>(const std::string&)> done;
};

bool is_wide(const std::string& text) {
  return text.find('\0') != std::string::npos;
}

/// Lines with their ends.
std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::string line;
  for (std::size_t i = 0; i < text.size(); ++i) {
    line += text[i];
    const bool end =
        text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n'));
    if (!end) continue;
    lines.push_back(line);
    line.clear();
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line;
  return text;
}

std::vector<std::string> without_one_row(const std::string& text) {
  std::vector<std::string> all;
  const std::vector<std::string> lines = lines_of(text);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    std::vector<std::string> fewer = lines;
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
    all.push_back(joined(fewer));
  }
  return all;
}

std::vector<std::string> with_one_row_twice(const std::string& text) {
  std::vector<std::string> all;
  const std::vector<std::string> lines = lines_of(text);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    std::vector<std::string> more = lines;
    more.insert(more.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
    all.push_back(joined(more));
  }
  return all;
}

/// Every digit in turn, also those of the text column and the words around.
std::vector<std::string> without_one_digit(const std::string& text) {
  std::vector<std::string> all;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (std::string_view("0123456789abcdefABCDEF").find(text[i]) == std::string_view::npos)
      continue;
    // Long listings say the same again and again.
    if (i > 300 && i % 7 != 0) continue;
    std::string less = text;
    less.erase(i, 1);
    all.push_back(less);
  }
  return all;
}

std::vector<std::string> with_words_around(const std::string& text) {
  return {"Hello all, this is what my machine says, 3 of them like it:\n\n" + text +
              "\n\nWhat do you think of that? It has 2 drives.\n-- \nA. Body\n",
          "On 14 May 2031 at 09:30 I read the chip.\n" + text};
}

std::vector<std::string> with_other_ends(const std::string& text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i)
    if (text[i] != '\r')
      plain += text[i];
    else if (i + 1 == text.size() || text[i + 1] != '\n')
      plain += '\n';
  std::string windows, macintosh;
  for (const char c : plain) {
    windows += c == '\n' ? "\r\n" : std::string(1, c);
    macintosh += c == '\n' ? '\r' : c;
  }
  return {plain, windows, macintosh};
}

std::vector<std::string> as_utf16(const std::string& text) {
  std::string low = "\xFF\xFE", high = "\xFE\xFF";
  for (const char c : text) {
    if (static_cast<unsigned char>(c) >= 0x80) return {};  // the test's own writer is plain
    low += c;
    low += '\0';
    high += '\0';
    high += c;
  }
  return {low, high, low.substr(2)};
}

/// Lines broken at a blank, as an editor does at so many columns.
std::vector<std::string> wrapped(const std::string& text) {
  std::vector<std::string> all;
  for (const std::size_t width : {38, 50, 60, 72}) {
    std::string broken;
    for (const std::string& line : lines_of(text)) {
      std::string rest = line;
      while (rest.size() > width + 1) {
        const std::size_t at = rest.rfind(' ', width);
        if (at == std::string::npos || at == 0 || rest.find_first_not_of(' ') > at) break;
        broken += rest.substr(0, at) + "\n";
        rest.erase(0, at + 1);
      }
      broken += rest;
    }
    if (broken != text) all.push_back(broken);
  }
  // One line alone.
  const std::vector<std::string> lines = lines_of(text);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::size_t at = lines[i].rfind(' ', lines[i].size() / 2);
    if (at == std::string::npos || at == 0) continue;
    std::vector<std::string> one = lines;
    one[i][at] = '\n';
    all.push_back(joined(one));
  }
  return all;
}

const std::vector<Damage>& damages() {
  static const std::vector<Damage> all{{"one row missing", false, without_one_row},
                                       {"one digit lost", false, without_one_digit},
                                       {"one row twice", false, with_one_row_twice},
                                       {"words around", true, with_words_around},
                                       {"other line ends", true, with_other_ends},
                                       {"UTF-16", true, as_utf16},
                                       {"wrapped lines", false, wrapped}};
  return all;
}

/// Known bytes that are not what the chip holds.
bool has_wrong_byte(const Image& image, const Image& wanted) {
  if (image.size() != wanted.size() && image.unknown().empty()) return true;
  for (std::size_t at = 0; at < image.size(); ++at) {
    const auto byte = image.at(static_cast<Address>(at));
    if (!byte) continue;
    if (byte != wanted.at(static_cast<Address>(at))) return true;
  }
  return false;
}

struct Outcome {
  std::size_t right = 0;
  std::size_t partly = 0;  ///< some bytes left unknown, with a warning
  std::size_t warned = 0;  ///< a wrong byte, with a warning
  std::size_t refused = 0;
  std::size_t silent = 0;  ///< a wrong or missing byte without a warning
};

void count(const std::string& text, const Listed& listed, const ReadingOptions& options,
           Outcome& outcome) {
  try {
    const Dump dump = read_dump(text, "dump", options);
    const bool said = !dump.remarks.warnings.empty();
    if (dump.image == listed.wanted)
      ++outcome.right;
    else if (!said)
      ++outcome.silent;
    else
      ++(has_wrong_byte(dump.image, listed.wanted) ? outcome.warned : outcome.partly);
  } catch (const Error&) {
    ++outcome.refused;
  }
}

Outcome outcome_of(const Damage& damage, bool judging) {
  Outcome outcome;
  ReadingOptions options;
  if (judging) options.likeness = likeness;
  for (const Listed& listed : collection()) {
    if (listed.asks || is_wide(listed.content)) continue;
    for (const std::string& text : damage.done(listed.content))
      count(text, listed, options, outcome);
  }
  return outcome;
}

}  // namespace

TEST_CASE("no damage of copying makes a wrong image without a warning", "[long][count]") {
  const bool judging = GENERATE(false, true);
  for (const Damage& damage : damages()) {
    const Outcome outcome = outcome_of(damage, judging);
    CAPTURE(judging, damage.name, outcome.right, outcome.partly, outcome.warned, outcome.refused);
    CHECK(outcome.silent == 0);
    if (damage.harmless) CHECK(outcome.partly + outcome.warned + outcome.refused == 0);
  }
}

TEST_CASE("what becomes of damaged listings, in numbers", "[.figures]") {
  for (const Damage& damage : damages()) {
    const Outcome outcome = outcome_of(damage, true);
    WARN(damage.name << ": " << outcome.right << " right, " << outcome.partly << " partly unknown, "
                     << outcome.warned << " wrong with a warning, " << outcome.refused
                     << " refused, " << outcome.silent << " wrong without a warning");
  }
}
