#include "forms/s_record.h"

#include <cstdint>
#include <fmt/format.h>
#include <span>
#include <vector>

#include "base/error.h"
#include "base/text.h"
#include "forms/gather.h"
#include "forms/records.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

struct Record {
  char type;
  std::uint32_t address;
  std::vector<std::uint8_t> data;
};

/// Bytes of the address field by type (M68000PRM); 0 for a type that is not read.
std::size_t address_bytes(char type) {
  switch (type) {
    case '0':
    case '1':
    case '5':
    case '9':
      return 2;
    case '2':
    case '8':
      return 3;
    case '3':
    case '7':
      return 4;
    default:
      return 0;
  }
}

bool is_data(char type) {
  return type >= '1' && type <= '3';
}
bool is_end(char type) {
  return type >= '7' && type <= '9';
}

/// The check byte: ones' complement of the sum of length, address and data (M68000PRM).
std::uint8_t check_of(std::span<const std::uint8_t> bytes) {
  return static_cast<std::uint8_t>(~sum_of(bytes));
}

Record parse_record(std::string_view line, const std::string& here) {
  if (line.size() < 2 || (line[0] != 'S' && line[0] != 's'))
    refuse(here, fmt::format("{} does not begin with S and a digit, as every record does",
                             in_quotes(line)));
  const std::size_t width = address_bytes(line[1]);
  if (width == 0)
    refuse(here, fmt::format("record type {} is not one of S0 to S3, S5, S7 to S9",
                             in_quotes(line.substr(0, 2))));
  const std::vector<std::uint8_t> bytes = record_bytes(line.substr(2), here);
  // Length, address and check.
  if (bytes.size() < width + 2) refuse(here, "the record is cut short");
  if (bytes.size() != bytes[0] + 1U)
    refuse(
        here,
        fmt::format("the record says that {} bytes follow, but {} do", bytes[0], bytes.size() - 1),
        "the line is cut short, or its length byte is wrong");
  const std::uint8_t check = check_of(std::span(bytes).first(bytes.size() - 1));
  if (check != bytes.back())
    refuse(here,
           fmt::format("the check byte is {}, but the record's bytes need {}",
                       hex_prose(bytes.back()), hex_prose(check)),
           "a digit of this line is wrong; compare it with its source");
  Record record{
      line[1], 0, {bytes.begin() + 1 + static_cast<std::ptrdiff_t>(width), bytes.end() - 1}};
  for (std::size_t i = 1; i <= width; ++i) record.address = record.address << 8 | bytes[i];
  return record;
}

void check_count(const Record& record, std::size_t count, const std::string& here) {
  if (record.address != (count & 0xFFFF))
    refuse(here,
           fmt::format("the count record says {} data records, but {} came before it",
                       record.address, count),
           "a line is missing or there twice");
}

std::string format_record(char type, std::uint16_t address, std::span<const std::uint8_t> data) {
  std::vector<std::uint8_t> bytes{static_cast<std::uint8_t>(data.size() + 3),
                                  static_cast<std::uint8_t>(address >> 8),
                                  static_cast<std::uint8_t>(address)};
  bytes.insert(bytes.end(), data.begin(), data.end());
  bytes.push_back(check_of(bytes));
  return fmt::format("S{}{}\n", type, digits_of(bytes));
}

}  // namespace

Found read_s_record(std::string_view content, const std::string& where,
                    const ReadingOptions& options) {
  Gather bytes(where);
  std::size_t count = 0;
  bool counted = false;
  bool ended = false;
  for (const SourceLine& line : source_lines(content, where)) {
    const std::string here = place(where, line.number);
    if (ended) refuse(here, "a line follows the end record");
    const Record record = parse_record(trim(line.text), here);
    if (counted && !is_end(record.type)) refuse(here, "only an end record may follow the count");
    if (is_data(record.type)) {
      ++count;
      for (std::size_t i = 0; i < record.data.size(); ++i)
        bytes.put(std::uint64_t{record.address} + i, record.data[i], line.number);
    }
    if (record.type == '5') {
      check_count(record, count, here);
      counted = true;
    }
    ended = is_end(record.type);
  }
  if (!ended && !counted)
    refuse(where, "the end record (S7, S8 or S9) is missing",
           "the file is cut short; get the rest of it, or add S9030000FC if nothing is missing");
  return bytes.chip(options);
}

std::string write_s_record(const Image& image) {
  constexpr std::uint8_t header[] = {'r', 't', 'c', 'm', 'e', 'n', 'd'};
  const std::vector<RecordRun> runs = known_runs(image, "s-record");
  std::string text = format_record('0', 0, header);
  for (const RecordRun& run : runs) text += format_record('1', run.first, run.bytes);
  text += format_record('5', static_cast<std::uint16_t>(runs.size()), {});
  return text + format_record('9', 0, {});
}

}  // namespace rtcmend
