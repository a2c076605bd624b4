#include "forms/styles.h"

#include <cstdint>
#include <cstdio>

namespace rtcmend::test {

namespace {

using Bytes = std::string;

/// What printf makes of one number; the tests' own writer goes through the C library alone.
std::string number(const char* pattern, unsigned long value) {
  char text[64];
  std::snprintf(text, sizeof text, pattern, value);
  return text;
}

unsigned byte(const Bytes& bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

unsigned long word(const Bytes& bytes, std::size_t at, std::size_t width, bool low_first) {
  unsigned long value = 0;
  for (std::size_t i = 0; i < width; ++i)
    value |= static_cast<unsigned long>(byte(bytes, at + (low_first ? i : width - 1 - i)))
             << (8 * i);
  return value;
}

std::string binary(unsigned long value, std::size_t digits) {
  std::string text(digits, '0');
  for (std::size_t i = 0; i < digits; ++i)
    if (value >> i & 1) text[digits - 1 - i] = '1';
  return text;
}

std::string text_column(const Bytes& bytes, std::size_t at, std::size_t count) {
  std::string text;
  for (std::size_t i = at; i < at + count && i < bytes.size(); ++i)
    text += bytes[i] >= ' ' && bytes[i] < 0x7F ? bytes[i] : '.';
  return text;
}

/// How rows of numbers look.
struct Rows {
  const char* address = nullptr;  ///< nullptr: none
  const char* pattern = "%02lx";
  std::size_t width = 1;
  bool low_first = true;
  std::size_t bytes_a_row = 16;
  std::string between = " ";
  std::string before_text{};  ///< empty: no text column
  std::string behind_text{};
  std::size_t start = 0;      ///< the first address
  const char* end = nullptr;  ///< the address behind the last byte, on a line of its own
  std::string line_end = "\n";
};

std::function<std::string(const Bytes&)> rows(const Rows& look) {
  return [look](const Bytes& bytes) {
    std::string text;
    for (std::size_t at = 0; at < bytes.size(); at += look.bytes_a_row) {
      if (look.address != nullptr) text += number(look.address, look.start + at);
      std::string numbers;
      for (std::size_t i = at; i < at + look.bytes_a_row && i < bytes.size(); i += look.width)
        numbers += (i == at ? "" : look.between) +
                   number(look.pattern, word(bytes, i, look.width, look.low_first));
      text += numbers;
      if (!look.before_text.empty())
        text += look.before_text + text_column(bytes, at, look.bytes_a_row) + look.behind_text;
      text += look.line_end;
    }
    if (look.end != nullptr) text += number(look.end, look.start + bytes.size()) + look.line_end;
    return text;
  };
}

/// One line for each byte: both patterns take a number.
std::function<std::string(const Bytes&)> lines(const char* address, const char* value) {
  return [=](const Bytes& bytes) {
    std::string text;
    for (std::size_t at = 0; at < bytes.size(); ++at)
      text += number(address, at) + number(value, byte(bytes, at)) + "\n";
    return text;
  };
}

/// All values with something around and between them.
std::function<std::string(const Bytes&)> list(const std::string& before, const char* value,
                                              const std::string& between,
                                              const std::string& behind) {
  return [=](const Bytes& bytes) {
    std::string text = before;
    for (std::size_t at = 0; at < bytes.size(); ++at)
      text += (at == 0 ? "" : between) + number(value, byte(bytes, at));
    return text + behind;
  };
}

/// Every line begins with a word of a language.
std::function<std::string(const Bytes&)> statements(const char* number_of_line,
                                                    const std::string& word_of_line,
                                                    const char* value) {
  return [=](const Bytes& bytes) {
    std::string text;
    for (std::size_t at = 0; at < bytes.size(); at += 8) {
      text += number(number_of_line, 100 + at) + word_of_line;
      for (std::size_t i = at; i < at + 8; ++i)
        text += (i == at ? "" : ",") + number(value, byte(bytes, i));
      text += "\r\n";
    }
    return text;
  };
}

std::string base64(const Bytes& bytes) {
  constexpr const char* letters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    const std::size_t count = std::min<std::size_t>(3, bytes.size() - at);
    unsigned long bits = 0;
    for (std::size_t i = 0; i < 3; ++i) bits = bits << 8 | (i < count ? byte(bytes, at + i) : 0);
    for (std::size_t i = 0; i < 4; ++i)
      text += i <= count ? letters[bits >> (18 - 6 * i) & 0x3F] : '=';
    if (at % 48 == 45) text += '\n';
  }
  return text + "\n";
}

std::string binaries(const Bytes& bytes) {
  std::string text;
  for (std::size_t at = 0; at < bytes.size(); ++at)
    text += binary(byte(bytes, at), 8) + (at % 4 == 3 ? "\n" : " ");
  return text;
}

std::string markdown(const Bytes& bytes) {
  std::string text = "| at | bytes ||||||||\n|---|---|---|---|---|---|---|---|---|\n";
  for (std::size_t at = 0; at < bytes.size(); at += 8) {
    text += "| " + number("%02lX", at);
    for (std::size_t i = at; i < at + 8; ++i) text += " | " + number("%02lX", byte(bytes, i));
    text += " |\n";
  }
  return text;
}

std::string quoted_mail(const Bytes& bytes) {
  Rows look;
  look.address = "> %04lX: ";
  look.pattern = "%02lX";
  return "Somebody wrote:\n> see below\n" + rows(look)(bytes) + "\nThank you!\n";
}

std::string utf16(const Bytes& bytes) {
  Rows look;
  look.address = "%08lX   ";
  look.pattern = "%02lX";
  look.before_text = "  ";
  look.line_end = "\r\n";
  std::string text = "\xFF\xFE";
  for (const char c : rows(look)(bytes)) {
    text += c;
    text += '\0';
  }
  return text;
}

Rows look(const char* address, const char* pattern) {
  Rows rows;
  rows.address = address;
  rows.pattern = pattern;
  return rows;
}

Rows with_text(Rows rows, const std::string& before, const std::string& behind = {}) {
  rows.before_text = before;
  rows.behind_text = behind;
  return rows;
}

Rows words(Rows rows, std::size_t width, bool low_first = true) {
  rows.width = width;
  rows.low_first = low_first;
  return rows;
}

Rows by(Rows rows, std::size_t count) {
  rows.bytes_a_row = count;
  return rows;
}

Rows from(Rows rows, std::size_t start) {
  rows.start = start;
  return rows;
}

Rows ending(Rows rows, const char* end) {
  rows.end = end;
  return rows;
}

ReadingOptions order(ByteOrder first) {
  ReadingOptions options;
  options.order = first;
  return options;
}

}  // namespace

const std::vector<Style>& styles() {
  static const std::vector<Style> all{
      {"canonical", rows(ending(with_text(look("%08lx  ", "%02lx"), "  |", "|"), "%08lx"))},
      {"groups with text", rows(words(with_text(look("%08lx: ", "%04lx"), "  "), 2, false))},
      {"words of four with text", rows(words(with_text(look("%08lx: ", "%08lx"), "  "), 4))},
      {"words of two with text", rows(words(with_text(look("%08lx: ", "%04lx"), "  "), 2))},
      {"octal addresses", rows(ending(look("%07lo ", "%02lx"), "%07lo"))},
      {"octal bytes", rows(ending(look("%07lo ", "%03lo"), "%07lo"))},
      {"octal words", rows(ending(words(look("%07lo ", "%06lo"), 2), "%07lo"))},
      {"hex words", rows(ending(words(look("%07lx ", "%04lx"), 2), "%07lx"))},
      {"decimal bytes", rows(ending(look("%07lu", "%4lu"), "%07lu"))},
      {"decimal words", rows(ending(words(look("%07lo ", "%5lu"), 2), "%07lo"))},
      {"padded decimal", rows(look("%04lX: ", "%03lu"))},
      {"two digits", rows(look("%02lX: ", "%02lX"))},
      {"two digits, bare", rows(look("%02lx ", "%02lx"))},
      {"no addresses", rows(look(nullptr, "%02lX"))},
      {"eight a row", rows(by(look(nullptr, "%02lx"), 8))},
      {"decimal addresses, ten a row", rows(by(look("%lu: ", "%02lX"), 10))},
      {"a debugger's", rows(from(with_text(look("0B1C:%04lX  ", "%02lX"), "   "), 0x100))},
      {"far away", rows(from(by(look("0x%lx:\t", "0x%02lx"), 8), 0x404040))},
      {"far away, words", rows(from(words(look("%08lx: ", "%08lx"), 4), 0x82000000)),
       order(ByteOrder::low_first)},
      {"words, high first", rows(words(look(nullptr, "%04lX"), 2, false)),
       order(ByteOrder::high_first)},
      {"words, low first", rows(words(look(nullptr, "%04lX"), 2)), order(ByteOrder::low_first)},
      {"sixteen digits", rows(with_text(look("%016lX ", "%02lX"), " "))},
      {"tabs", rows(look("%02lx\t", "%02lx"))},
      {"one a line", lines("%02lX: ", "%02lX")},
      {"one a line, decimal address", lines("%lu: ", "0x%02lX")},
      {"one a line, all decimal", lines("%lu,", "%lu")},
      {"labelled", lines("Reg[0x%02lX] = ", "0x%02lX")},
      {"arrows", lines("%02lXh -> ", "%02lXh")},
      {"C array", list("static const unsigned char cmos[] = {", "0x%02lX", ", ", "};\n")},
      {"decimal list", list("[", "%lu", ", ", "]\n")},
      {"hex list", list("x = bytes([", "0x%02lx", ", ", "])\n")},
      {"Pascal", list("const C: array[0..63] of Byte = (", "$%02lX", ",", ");\n")},
      {"string with escapes", list("b'", "\\x%02lx", "", "'\n")},
      {"octal escapes", list("printf '", "\\%03lo", "", "'\n")},
      {"colons", list("", "%02lx", ":", "\n")},
      {"no blanks", list("", "%02lX", "", "\n")},
      {"BASIC", statements("%lu ", "DATA ", "%lu")},
      {"assembler", statements("L%lu: ", "db ", "0x%02lX")},
      {"base64", base64},
      {"binary", binaries},
      {"table", markdown},
      {"mail", quoted_mail},
      {"UTF-16", utf16},
  };
  return all;
}

}  // namespace rtcmend::test
