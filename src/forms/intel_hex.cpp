#include "forms/intel_hex.h"

#include <cstdint>
#include <fmt/format.h>
#include <vector>

#include "base/error.h"
#include "base/text.h"
#include "forms/gather.h"
#include "forms/records.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

// Record types (IntelHex).
constexpr std::uint8_t data_type = 0;
constexpr std::uint8_t end_type = 1;
constexpr std::uint8_t segment_type = 2;
constexpr std::uint8_t start_segment_type = 3;
constexpr std::uint8_t linear_type = 4;
constexpr std::uint8_t start_linear_type = 5;

struct Record {
  std::uint8_t type;
  std::uint16_t offset;
  std::vector<std::uint8_t> data;
};

/// What records 02 and 04 change: where the offsets of data records count from.
struct Base {
  std::uint32_t address = 0;
  bool segmented = true;  // offsets wrap at 64 KiB
};

Record parse_record(std::string_view line, const std::string& here) {
  if (line.front() != ':')
    refuse(here,
           fmt::format("{} does not begin with a colon, as every record does", in_quotes(line)));
  const std::vector<std::uint8_t> bytes = record_bytes(line.substr(1), here);
  // Length, two of address, type and check.
  constexpr std::size_t frame = 5;
  if (bytes.size() < frame) refuse(here, "the record is cut short");
  if (bytes.size() != bytes[0] + frame)
    refuse(
        here,
        fmt::format("the record says {} data bytes, but holds {}", bytes[0], bytes.size() - frame),
        "the line is cut short, or its length byte is wrong");
  if (sum_of(bytes) != 0)
    refuse(
        here,
        fmt::format("the check byte is {}, but the record's bytes need {}", hex_prose(bytes.back()),
                    hex_prose(static_cast<std::uint8_t>(bytes.back() - sum_of(bytes)))),
        "a digit of this line is wrong; compare it with its source");
  return {bytes[3],
          static_cast<std::uint16_t>(bytes[1] << 8 | bytes[2]),
          {bytes.begin() + 4, bytes.end() - 1}};
}

void expect_length(const Record& record, std::size_t length, const std::string& here) {
  if (record.data.size() != length)
    refuse(here, fmt::format("a record of type {:02X} holds {} data bytes, this one {}",
                             record.type, length, record.data.size()));
}

Base new_base(const Record& record, const std::string& here) {
  expect_length(record, 2, here);
  const std::uint32_t value = static_cast<std::uint32_t>(record.data[0]) << 8 | record.data[1];
  if (record.type == segment_type) return {value << 4, true};
  return {value << 16, false};
}

std::uint32_t address_of(const Base& base, std::uint32_t offset) {
  return base.address + (base.segmented ? offset & 0xFFFF : offset);
}

}  // namespace

Found read_intel_hex(std::string_view content, const std::string& where,
                     const ReadingOptions& options) {
  Gather bytes(where);
  Base base;
  bool ended = false;
  for (const SourceLine& line : source_lines(content, where)) {
    const std::string here = place(where, line.number);
    if (ended) refuse(here, "a line follows the end record");
    const Record record = parse_record(trim(line.text), here);
    switch (record.type) {
      case data_type:
        for (std::size_t i = 0; i < record.data.size(); ++i)
          bytes.put(address_of(base, record.offset + static_cast<std::uint32_t>(i)), record.data[i],
                    line.number);
        break;
      case end_type:
        expect_length(record, 0, here);
        ended = true;
        break;
      case segment_type:
      case linear_type:
        base = new_base(record, here);
        break;
      case start_segment_type:
      case start_linear_type:
        // Where a program starts: means nothing for a chip's memory.
        expect_length(record, 4, here);
        break;
      default:
        refuse(here, fmt::format("record type {:02X} does not exist, only 00 to 05", record.type));
    }
  }
  if (!ended)
    refuse(where, "the end record :00000001FF is missing",
           "the file is cut short; get the rest of it, or add the line if nothing is missing");
  return bytes.chip(options);
}

std::string write_intel_hex(const Image& image) {
  std::string text;
  for (const RecordRun& run : known_runs(image, "intel-hex")) {
    std::vector<std::uint8_t> record{static_cast<std::uint8_t>(run.bytes.size()), 0, run.first,
                                     data_type};
    record.insert(record.end(), run.bytes.begin(), run.bytes.end());
    record.push_back(static_cast<std::uint8_t>(-sum_of(record)));
    text += ":" + digits_of(record) + "\n";
  }
  return text + ":00000001FF\n";
}

}  // namespace rtcmend
