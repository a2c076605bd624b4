#include "forms/records.h"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <numeric>

#include "base/error.h"
#include "base/text.h"
#include "forms/row_text.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

bool is_hex_digit(char c) {
  return std::isxdigit(static_cast<unsigned char>(c)) != 0;
}

}  // namespace

std::vector<std::uint8_t> record_bytes(std::string_view digits, const std::string& here) {
  const auto wrong = std::find_if_not(digits.begin(), digits.end(), is_hex_digit);
  if (wrong != digits.end())
    refuse(here, fmt::format("{} is not a hex digit", in_quotes(std::string_view(&*wrong, 1))),
           "a record is one line of hex digits without blanks");
  if (digits.size() % 2 != 0)
    refuse(here, fmt::format("an odd number of hex digits, {}", digits.size()),
           "a digit is missing or too many on this line");
  std::vector<std::uint8_t> bytes;
  for (std::size_t i = 0; i < digits.size(); i += 2)
    bytes.push_back(static_cast<std::uint8_t>(*parse_hex(digits.substr(i, 2), 0xFF)));
  return bytes;
}

std::uint8_t sum_of(std::span<const std::uint8_t> bytes) {
  return static_cast<std::uint8_t>(std::accumulate(bytes.begin(), bytes.end(), 0U));
}

std::vector<RecordRun> known_runs(const Image& image, std::string_view form) {
  std::vector<RecordRun> runs;
  for (std::size_t i = 0; i < image.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (!image.known(at)) continue;
    const bool row_starts = i % bytes_a_row == 0;
    if (row_starts || runs.empty() || !image.known(static_cast<Address>(i - 1)))
      runs.push_back({at, {}});
    runs.back().bytes.push_back(image[at]);
  }
  if (runs.empty()) refuse(std::string(form), "no byte of the image is known: nothing to write");
  return runs;
}

std::string digits_of(std::span<const std::uint8_t> bytes) {
  return fmt::format("{:02X}", fmt::join(bytes.begin(), bytes.end(), ""));
}

}  // namespace rtcmend
