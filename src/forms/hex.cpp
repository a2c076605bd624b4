#include "forms/hex.h"

#include <fmt/format.h>
#include <vector>

#include "base/error.h"
#include "forms/encoded_bytes.h"
#include "forms/hex_session.h"
#include "forms/read_listing.h"
#include "forms/row_text.h"
#include "forms/source_lines.h"
#include "forms/value_frame.h"

namespace rtcmend {

namespace {

void warn_of_others(std::size_t others, Found& found) {
  if (others == 0) return;
  found.remarks.warnings.push_back(fmt::format(
      "it holds {} more like the one that is read: keep the one that is meant", others));
}

Found encoded(const Encoded& piece, std::string_view what, const std::string& where,
              const ReadingOptions& options) {
  Found found = chip_in(piece.bytes, where, options);
  warn_of_halves(found);
  warn_of_others(piece.others, found);
  found.remarks.notes.insert(found.remarks.notes.begin(), fmt::format("read as {}", what));
  return found;
}

/// The values of an array follow one another, however its lines are broken.
Found framed(const Framed& values, const std::string& where, ReadingOptions options) {
  options.addresses = AddressKind::none;
  Found found = read_listing(values.text, where, options);
  warn_of_others(values.others, found);
  return found;
}

}  // namespace

Found read_hex(std::string_view text, const std::string& where, const ReadingOptions& options) {
  const std::vector<SourceLine> lines = source_lines(text, where);
  if (is_port_session(lines)) return read_port_session(lines, where);
  if (const auto piece = escaped_bytes(text, where))
    return encoded(*piece, "a string with escapes", where, options);
  if (const auto values = framed_values(text)) return framed(*values, where, options);
  if (const auto bytes = base64_bytes(text, where))
    return encoded(*bytes, "base64", where, options);
  return read_listing(text, where, options);
}

std::string write_hex(const Image& image) {
  std::string text;
  for (std::size_t at = 0; at < image.size(); at += bytes_a_row)
    text += fmt::format("{:02X}: {}\n", at, row_text(image, static_cast<Address>(at)));
  return text;
}

bool looks_like_hex(std::string_view text) {
  try {
    return is_port_session(source_lines(text, "")) || escaped_bytes(text, "") ||
           framed_values(text) || base64_bytes(text, "") || looks_like_listing(text);
  } catch (const Error&) {
    // What is damaged is a listing still, unless it is no text at all.
    try {
      source_lines(text, "");
      return true;
    } catch (const Error&) {
      return false;
    }
  }
}

}  // namespace rtcmend
