#include "forms/code_text.h"

#include <fmt/format.h>
#include <map>
#include <optional>

#include "base/error.h"
#include "base/text.h"
#include "forms/code_line.h"
#include "forms/error_list.h"
#include "forms/gather.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

/// The digits of so many bytes from an address on, as a code has them.
std::string digits_of(const Image& image, std::size_t first, std::size_t count) {
  std::string digits;
  for (std::size_t i = first; i < first + count; ++i) {
    const auto value = image.at(static_cast<Address>(i));
    digits += value ? hex2(*value) : std::string(unknown_in_code);
  }
  return digits;
}

/// The codes of one chip, by their first address.
using Codes = std::map<Address, CodeLine>;

/// Refuses a code that is not of the chip that the first one is of.
void check_kinship(const CodeLine& code, const CodeLine& first, const std::string& where) {
  const std::string remedy =
      "keep the codes of one chip, all from one showing: a clock that was read again has moved on";
  if (code.size != first.size)
    refuse(place(where, code.line),
           fmt::format("this code is of a chip of {} bytes, the one in line {} of a chip of {}",
                       code.size, first.line, first.size),
           remedy);
  if (code.chip_check != first.chip_check)
    refuse(place(where, code.line),
           fmt::format("this code is of another chip or another reading than the one in line {}: "
                       "its chip's check is {}, and there {}",
                       first.line, code.chip_check, first.chip_check),
           remedy);
  if (code.first == first.first && code.digits != first.digits)
    refuse(place(where, code.line),
           fmt::format("this code gives other bytes {} than the one in line {}", code.range(),
                       first.line),
           remedy);
}

/// With all bytes of the chip in hand, its check must fit them.
void check_chip(const Codes& codes, const std::string& where) {
  std::string digits;
  for (const auto& [first, code] : codes) digits += code.digits;
  const CodeLine& last = codes.rbegin()->second;
  if (digits.size() != 2 * last.size || check_of(digits) == last.chip_check) return;
  refuse(place(where, last.line),
         fmt::format("these bytes do not fit the chip's check: it says {}, they give {}",
                     last.chip_check, check_of(digits)),
         codes.size() == 1 ? "show the code again and read it again"
                           : "the two codes are not of one reading: show both again, one after "
                             "the other, and read them again");
}

Image image_of(const Codes& codes) {
  Image image(codes.begin()->second.size);
  for (const auto& [first, code] : codes)
    for (std::size_t i = 0; i < bytes_a_code; ++i)
      if (const auto value = parse_hex(code.digits.substr(2 * i, 2), 0xFF))
        image.set(static_cast<Address>(first + i), static_cast<std::uint8_t>(*value));
  return image;
}

Remarks remarks_on(const Codes& codes) {
  const CodeLine& code = codes.begin()->second;
  if (codes.size() * bytes_a_code == code.size) return {};
  const auto missing = static_cast<std::uint8_t>(bytes_a_code - code.first);
  const auto end = static_cast<std::uint8_t>(missing + bytes_a_code - 1);
  return {{},
          {fmt::format("only code {} of 2 is here, the other was not read: {} to {} are unknown",
                       code.first == 0 ? 1 : 2, hex_prose(missing), hex_prose(end))}};
}

}  // namespace

std::vector<std::string> code_texts(const Image& image) {
  const std::string chip_check = check_of(digits_of(image, 0, image.size()));
  std::vector<std::string> texts;
  for (std::size_t first = 0; first < image.size(); first += bytes_a_code) {
    const std::string text =
        fmt::format("{}{}/{}/{:02X}/{}/{}/", code_mark, code_version, image.size(), first,
                    digits_of(image, first, bytes_a_code), chip_check);
    texts.push_back(text + check_of(text));
  }
  return texts;
}

Found read_code_text(std::string_view content, const std::string& where,
                     const ReadingOptions& options) {
  Codes codes;
  ErrorList slips;
  const CodeLetters letters = code_letters(content);
  std::optional<CodeLine> first;
  for (const std::size_t at : code_places(letters.text))
    slips.trying([&] {
      const CodeLine code = code_at(letters, at, where);
      if (first) check_kinship(code, *first, where);
      if (!first) first = code;
      const auto [same, fresh] = codes.try_emplace(code.first, code);
      if (!fresh) check_kinship(code, same->second, where);
    });
  slips.refuse_if_any();
  if (codes.empty())
    refuse(where, fmt::format("it holds no code of a chip: none begins with {}", code_mark),
           "paste all that the reader of the photograph gave");
  check_chip(codes, where);
  if (!options.at && !options.size) return {image_of(codes), remarks_on(codes)};
  const Image image = image_of(codes);
  Gather bytes(where);
  for (std::size_t i = 0; i < image.size(); ++i)
    bytes.put(i, image.at(static_cast<Address>(i)), first->line);
  Found found = bytes.chip(options);
  found.remarks.add(remarks_on(codes));
  return found;
}

std::string write_code_text(const Image& image) {
  std::string text;
  for (const std::string& code : code_texts(image)) text += code + "\n";
  return text;
}

}  // namespace rtcmend
