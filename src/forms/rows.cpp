#include "forms/rows.h"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <vector>

#include "base/error.h"
#include "base/text.h"
#include "forms/error_list.h"
#include "forms/gather.h"
#include "forms/row_code.h"
#include "forms/row_slips.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

/// The parts of a line, digits still as they were written.
struct RowParts {
  std::string address;
  std::vector<std::string> bytes;  // 16 of two characters each
  std::string code;
};

std::vector<std::string> words(std::string_view text) {
  std::vector<std::string> all;
  std::string spaced(text);
  std::replace(spaced.begin(), spaced.end(), '\t', ' ');
  for (const std::string& word : split(spaced, ' '))
    if (!word.empty()) all.push_back(word);
  return all;
}

/// Pairs of characters; blanks may be missing or too many as long as the pairs hold.
std::vector<std::string> pairs(std::string_view text, const std::string& row,
                               const std::string& here) {
  std::vector<std::string> all;
  for (const std::string& word : words(text)) {
    if (word.size() % 2 != 0)
      refuse(here, fmt::format("row {}: {} has an odd number of digits", row, in_quotes(word)),
             "a byte is two digits, or ?? when it cannot be read");
    for (std::size_t i = 0; i < word.size(); i += 2) all.push_back(word.substr(i, 2));
  }
  if (all.size() != bytes_a_row)
    refuse(here, fmt::format("row {} has {} bytes, and a row has 16", row, all.size()),
           "a byte was left out or copied twice; write ?? for one that cannot be read");
  return all;
}

RowParts parts_of(std::string_view line, const std::string& here) {
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos)
    refuse(here, "no colon behind a row address",
           "a row is an address, a colon, 16 bytes, = and the row's code");
  const std::string address(trim(line.substr(0, colon)));
  if (address.size() != 2)
    refuse(here, fmt::format("{} is no row address", in_quotes(address)),
           "a row begins with 00: or 10: and so on up to 70:");
  const std::size_t equals = line.find('=', colon);
  if (equals == std::string_view::npos)
    refuse(here, fmt::format("row {} has no code", in_quotes(address)),
           {{"Each row ends in = and two digits; without codes it is hex text",
             Act{Act::Kind::choose, "form", "hex"}}});
  const std::string code(trim(line.substr(equals + 1)));
  if (code.size() != 2)
    refuse(here, fmt::format("{} is no code for row {}", in_quotes(code), in_quotes(address)),
           "the code is two hex digits behind =");
  return {address, pairs(line.substr(colon + 1, equals - colon - 1), in_quotes(address), here),
          code};
}

/// Reads a line's pairs of characters as bytes and keeps the letters that stand in place of digits.
class PairReader {
 public:
  explicit PairReader(std::string here) : here_(std::move(here)) {}

  std::uint8_t byte(const std::string& pair, const std::string& spot) {
    std::string digits;
    for (const char c : pair) digits += digit(c, pair, spot);
    return static_cast<std::uint8_t>(*parse_hex(digits, 0xFF));
  }

  DumpByte dump_byte(const std::string& pair, const std::string& spot) {
    if (pair == "??" || pair == "--") return std::nullopt;
    if (pair.find('?') != std::string::npos)
      refuse(here_, fmt::format("{} at {} is half a byte", in_quotes(pair), spot),
             "write ?? for a byte that cannot be read whole");
    return byte(pair, spot);
  }

  /// "the letter O at 11h is likely 0", for each.
  const std::vector<std::string>& letters() const { return letters_; }

 private:
  char digit(char c, const std::string& pair, const std::string& spot) {
    if (std::isxdigit(static_cast<unsigned char>(c)) != 0) return c;
    const char meant = digit_for(c);
    if (meant == 0)
      refuse(here_, fmt::format("{} at {} is not two hex digits", in_quotes(pair), spot),
             "digits are 0 to 9 and A to F; ?? for a byte that cannot be read");
    letters_.push_back(fmt::format("{} at {} is likely {}", c, spot, meant));
    return meant;
  }

  std::string here_;
  std::vector<std::string> letters_;
};

[[noreturn]] void refuse_letters(const std::vector<std::string>& letters, const Row& row,
                                 const std::string& here) {
  refuse(here, fmt::format("row {} has a letter in place of a digit", hex_prose(row.address)),
         fmt::format("{}; {}", join(letters, ", "),
                     fits_code(row) ? "with that the row fits its code"
                                    : "even so the row does not fit its code, look for more"));
}

void check_code(const Row& row, const std::string& here) {
  if (!is_row_address(row.address))
    refuse(here,
           fmt::format("{} is no row address: rows begin at 00h, 10h, ... 70h",
                       hex_prose(row.address)),
           slip_remedy(row));
  if (!fits_code(row))
    refuse(here,
           fmt::format("row {} does not fit its code: it says ={}, these bytes give ={}",
                       hex_prose(row.address), hex2(row.code), hex2(row_code(row))),
           slip_remedy(row));
}

Row parse_row(std::string_view line, const std::string& here) {
  const RowParts parts = parts_of(line, here);
  PairReader reader(here);
  Row row;
  row.address = reader.byte(parts.address, "the row address");
  for (std::size_t i = 0; i < bytes_a_row; ++i)
    row.bytes[i] =
        reader.dump_byte(parts.bytes[i], hex_prose(static_cast<std::uint8_t>(row.address + i)));
  row.code = reader.byte(parts.code, "the code");
  if (!reader.letters().empty()) refuse_letters(reader.letters(), row, here);
  check_code(row, here);
  return row;
}

/// A remark, or the letters that the keyboard program prints in front of its rows: K to Z, none of
/// them a hex digit.
bool is_comment(std::string_view line) {
  return line.front() == '#' || line.front() == ';' ||
         line.find_first_not_of("KLMNOPQRSTUVWXYZ") == std::string_view::npos;
}

}  // namespace

Found read_rows(std::string_view content, const std::string& where, const ReadingOptions& options) {
  Gather bytes(where);
  ErrorList slips;
  for (const SourceLine& line : source_lines(content, where)) {
    const std::string_view text = trim(line.text);
    if (is_comment(text)) continue;
    slips.trying([&] {
      const Row row = parse_row(text, place(where, line.number));
      for (std::size_t i = 0; i < bytes_a_row; ++i)
        bytes.put(row.address + i, row.bytes[i], line.number);
    });
  }
  slips.refuse_if_any();
  return bytes.chip(options);
}

std::string write_rows(const Image& image) {
  std::string text;
  for (std::size_t at = 0; at < image.size(); at += bytes_a_row) {
    Row row{static_cast<std::uint8_t>(at), {}, 0};
    for (std::size_t i = 0; i < bytes_a_row; ++i)
      row.bytes[i] = image.at(static_cast<Address>(at + i));
    text += fmt::format("{}: {} ={}\n", hex2(row.address), row_text(image, row.address),
                        hex2(row_code(row)));
  }
  return text;
}

}  // namespace rtcmend
