#include <algorithm>
#include <cctype>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "forms/encoded_bytes.h"
#include "forms/number.h"

namespace rtcmend {

namespace {

/// The six bits of a character of RFC 4648, -1 for another one.
int sextet(char c) {
  if (c >= 'A' && c <= 'Z') return c - 'A';
  if (c >= 'a' && c <= 'z') return c - 'a' + 26;
  if (c >= '0' && c <= '9') return c - '0' + 52;
  if (c == '+' || c == '-') return 62;
  if (c == '/' || c == '_') return 63;
  return -1;
}

/// A line that holds nothing but characters of base64.
bool is_base64(std::string_view line) {
  const std::string_view body = line.substr(0, line.find('='));
  return !body.empty() &&
         std::all_of(body.begin(), body.end(), [](char c) { return sextet(c) >= 0; }) &&
         line.substr(body.size()).find_first_not_of('=') == std::string_view::npos &&
         line.size() - body.size() <= 2;
}

// 50 bytes, the shortest dump, are 67 characters; hex digits alone are hex.
constexpr std::size_t shortest = 60;

/// The longest run of such lines, joined, and how many there are that could hold a dump. A short
/// line ends one.
struct Pieces {
  std::string longest;
  std::size_t count = 0;
};

Pieces pieces_of(std::string_view text) {
  constexpr std::size_t shortest_line = 24;
  Pieces pieces;
  std::string piece;
  std::size_t width = 0;
  const auto finish = [&] {
    if (piece.size() >= shortest) ++pieces.count;
    if (piece.size() > pieces.longest.size()) pieces.longest = piece;
    piece.clear();
  };
  for (std::string_view line : lines(text)) {
    line = trim(line);
    // A data address of a page: "data:...;base64,AAAA".
    if (const auto behind = line.find("base64,"); behind != std::string_view::npos)
      line = line.substr(behind + 7);
    while (!line.empty() &&
           std::string_view("\"'`>,;)").find(line.back()) != std::string_view::npos)
      line.remove_suffix(1);
    while (!line.empty() && std::string_view("\"'`> ").find(line.front()) != std::string_view::npos)
      line.remove_prefix(1);
    if (!is_base64(line) || (piece.empty() && line.size() < shortest_line)) {
      finish();
      continue;
    }
    if (piece.empty()) width = line.size();
    piece += line;
    if (line.size() < width || line.back() == '=') finish();
  }
  finish();
  return pieces;
}

}  // namespace

std::optional<Encoded> base64_bytes(std::string_view text, const std::string& where) {
  const Pieces pieces = pieces_of(text);
  const std::string& piece = pieces.longest;
  const std::string_view body = std::string_view(piece).substr(0, piece.find('='));
  const auto letters = std::count_if(body.begin(), body.end(), [](char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0 && !is_hex_digit(c);
  });
  constexpr std::ptrdiff_t fewest_letters = 6;
  if (body.size() < shortest || letters < fewest_letters) return std::nullopt;
  const bool closed = body.size() < piece.size();
  if (body.size() % 4 == 1 || (closed && piece.size() % 4 != 0))
    refuse(where,
           fmt::format("base64 of {} characters, and a character of it is missing", piece.size()),
           "compare it with its source; its characters come in fours");
  std::vector<DumpByte> bytes;
  std::uint32_t bits = 0;
  int count = 0;
  for (const char c : body) {
    bits = bits << 6 | static_cast<std::uint32_t>(sextet(c));
    count += 6;
    if (count < 8) continue;
    count -= 8;
    bytes.emplace_back(static_cast<std::uint8_t>(bits >> count));
  }
  return Encoded{bytes, pieces.count - 1};
}

}  // namespace rtcmend
