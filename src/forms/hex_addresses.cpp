#include "forms/hex_addresses.h"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "forms/gather.h"

namespace rtcmend {

namespace {

// Far more than a chip has, so that lines may repeat, and few enough that work stays bounded.
constexpr std::size_t most_bytes = 4096;

struct Placed {
  std::uint64_t address;
  DumpByte value;
  std::size_t line;
};

/// A line with its address read as a number.
struct NumberedLine {
  std::uint64_t address = 0;
  std::vector<DumpByte> bytes;
  std::size_t line = 0;
  bool repeat = false;
};

std::optional<std::uint64_t> parse_address(std::string_view digits, int radix) {
  constexpr std::size_t longest = 8;
  std::uint64_t value = 0;
  const char* end = digits.data() + digits.size();
  const auto [stop, failure] = std::from_chars(digits.data(), end, value, radix);
  if (digits.size() > longest || failure != std::errc{} || stop != end) return std::nullopt;
  return value;
}

/// True when each line begins where the one before ends, with addresses read in this radix.
bool follow_on(const std::vector<HexLine>& lines, int radix) {
  bool anywhere = true;  // the next line may begin
  std::uint64_t expected = 0;
  for (const HexLine& line : lines) {
    if (line.repeat) {
      anywhere = true;
      continue;
    }
    const auto address = parse_address(line.address->digits, radix);
    if (!address || *address > Image::large_size) return false;
    if (!anywhere && expected != *address) return false;
    expected = *address + bytes_of(line).size();
    anywhere = false;
  }
  return true;
}

// What the dump programs of Unix print without a colon: seven digits, octal or hex (six for hex
// that was asked for), and groups as little-endian words.
bool is_unix_dump(const HexLine& line, AddressStyle style) {
  const std::size_t width = line.address->digits.size();
  return style == AddressStyle::bare && (width == 6 || width == 7);
}

/// True when the address behind the last byte, if the dump ends with it, is the size of some dump.
bool ends_at_a_size(const std::vector<HexLine>& lines, int radix) {
  const HexLine& last = lines.back();
  if (last.repeat || !last.groups.empty()) return true;
  const auto end = parse_address(last.address->digits, radix);
  return end && is_dump_size(*end);
}

/// Octal is what od prints by default, decimal what it prints when asked; only the addresses
/// themselves tell.
int radix_of(const std::vector<HexLine>& lines, AddressStyle style) {
  const auto first = std::find_if(lines.begin(), lines.end(),
                                  [](const HexLine& line) { return line.address.has_value(); });
  if (first == lines.end() || !is_unix_dump(*first, style)) return 16;
  std::vector<int> possible;
  for (const int radix : {16, 8, 10})
    if (follow_on(lines, radix)) possible.push_back(radix);
  for (const int radix : possible)
    if (ends_at_a_size(lines, radix)) return radix;
  return possible.empty() ? 16 : possible.front();
}

std::vector<DumpByte> in_memory_order(HexLine line, AddressStyle style) {
  if (is_unix_dump(line, style))
    for (auto& group : line.groups) std::reverse(group.begin(), group.end());
  return bytes_of(line);
}

NumberedLine number_line(const HexLine& line, AddressStyle style, int radix,
                         const std::string& where) {
  if (line.repeat) return {0, {}, line.number, true};
  const auto address = parse_address(line.address->digits, radix);
  if (!address)
    refuse(place(where, line.number),
           fmt::format("{} is no address of a chip", in_quotes(line.address->digits)));
  return {*address + line.skipped, in_memory_order(line, style), line.number, false};
}

/// Fills what a `*` stands for: the bytes of the line before, again and again up to `end`.
void repeat_up_to(std::vector<Placed>& all, const NumberedLine& before, std::uint64_t end,
                  std::size_t star, const std::string& where) {
  const std::size_t count = before.bytes.size();
  if (end < before.address || end - before.address > most_bytes)
    refuse(place(where, star), "what the * stands for is past the chip");
  for (std::uint64_t i = count; i < end - before.address; ++i)
    all.push_back({before.address + i, before.bytes[i % count], star});
}

std::vector<Placed> placed_bytes(const std::vector<NumberedLine>& lines, const std::string& where) {
  std::vector<Placed> all;
  const NumberedLine* before = nullptr;
  const NumberedLine* star = nullptr;
  for (const NumberedLine& line : lines) {
    if (all.size() > most_bytes) refuse(place(where, line.line), "more bytes than any chip holds");
    if (line.repeat) {
      if (before == nullptr || before->bytes.empty())
        refuse(place(where, line.line), "a * with no bytes before it to repeat");
      star = &line;
      continue;
    }
    if (star != nullptr) repeat_up_to(all, *before, line.address, star->line, where);
    star = nullptr;
    for (std::size_t i = 0; i < line.bytes.size(); ++i)
      all.push_back({line.address + i, line.bytes[i], line.line});
    before = &line;
  }
  if (star != nullptr)
    refuse(place(where, star->line), "a * with no address behind it, so its end is unknown",
           "keep the last line of the dump, which is an address alone");
  return all;
}

/// True for bytes without hole or step back that are as many as some dump has.
bool is_whole_dump(const std::vector<Placed>& bytes) {
  if (!is_dump_size(bytes.size())) return false;
  for (std::size_t i = 0; i < bytes.size(); ++i)
    if (bytes[i].address != bytes[0].address + i) return false;
  return true;
}

Image image_by_order(const std::vector<Placed>& bytes, const std::string& where) {
  std::vector<DumpByte> values;
  values.reserve(bytes.size());
  for (const Placed& byte : bytes) values.push_back(byte.value);
  return image_by_count(values, where);
}

Image image_from(const std::vector<Placed>& bytes, std::uint64_t base, const std::string& where) {
  Gather gather(where);
  for (const Placed& byte : bytes) gather.put(byte.address - base, byte.value, byte.line);
  return gather.image();
}

bool is_segmented(const HexLine& line) {
  return line.address && !line.address->segment.empty();
}

void check_segments(const std::vector<HexLine>& lines, const std::string& where) {
  for (const HexLine& line : lines) {
    const bool other = line.address && line.address->segment != lines.front().address->segment;
    if (other)
      refuse(place(where, line.number), "the segment is another one than on the lines before",
             "give one block of memory with one segment");
  }
}

Image image_of_buffer(const std::vector<Placed>& bytes, const std::string& where) {
  if (is_whole_dump(bytes)) return image_by_order(bytes, where);
  const auto lowest =
      std::min_element(bytes.begin(), bytes.end(),
                       [](const Placed& a, const Placed& b) { return a.address < b.address; });
  const std::uint64_t base = lowest == bytes.end() ? 0 : lowest->address / 128 * 128;
  return image_from(bytes, base, where);
}

/// Offsets into a file have many digits; addresses of the chip are written with few.
bool are_file_offsets(const HexLine& line) {
  constexpr std::size_t fewest_digits = 6;
  return line.address && line.address->digits.size() >= fewest_digits;
}

}  // namespace

Image image_by_address(const std::vector<HexLine>& lines, AddressStyle style,
                       const std::string& where) {
  const int radix = radix_of(lines, style);
  std::vector<NumberedLine> numbered;
  numbered.reserve(lines.size());
  for (const HexLine& line : lines) numbered.push_back(number_line(line, style, radix, where));
  const std::vector<Placed> bytes = placed_bytes(numbered, where);
  if (is_segmented(lines.front())) {
    check_segments(lines, where);
    return image_of_buffer(bytes, where);
  }
  const bool from_zero = !bytes.empty() && bytes.front().address == 0;
  if (are_file_offsets(lines.front()) && from_zero && is_whole_dump(bytes))
    return image_by_order(bytes, where);
  return image_from(bytes, 0, where);
}

bool starts_with_addresses(const std::vector<HexLine>& lines) {
  constexpr std::size_t fewest_lines = 4;
  if (lines.size() < fewest_lines) return false;
  std::optional<std::size_t> expected;
  for (const HexLine& line : lines) {
    if (line.groups.size() < 2 || line.groups.front().size() != 1) return false;
    const DumpByte first = line.groups.front().front();
    if (!first || (expected && *expected != *first)) return false;
    expected = *first + bytes_of(line).size() - 1;
  }
  return true;
}

Image image_by_first_word(const std::vector<HexLine>& lines, const std::string& where) {
  std::vector<Placed> bytes;
  for (const HexLine& line : lines) {
    const std::vector<DumpByte> all = bytes_of(line);
    for (std::size_t i = 1; i < all.size(); ++i)
      bytes.push_back({*all.front() + i - 1, all[i], line.number});
  }
  return image_from(bytes, 0, where);
}

}  // namespace rtcmend
