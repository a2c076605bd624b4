#include "deliver/debugger_text.h"

#include <fmt/format.h>

namespace rtcmend {

namespace {

constexpr std::size_t line_most = 79;  // the debugger's input line holds 80 with its end
// The debugger writes to a disk by W, next to E on the keyboard, with at most four numbers behind
// it: a line of more is an error to it.
constexpr std::size_t least_items = 5;
constexpr std::size_t zeros_worth = 9;  // a fill and a new E line cost as much as eight zeros

using Bytes = std::span<const std::uint8_t>;

bool is_plain(std::uint8_t byte) {
  return (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') ||
         (byte >= 'a' && byte <= 'z');
}

std::size_t zeros_at_start(Bytes bytes) {
  std::size_t count = 0;
  while (count < bytes.size() && bytes[count] == 0) ++count;
  return count;
}

std::size_t plain_at_start(Bytes bytes) {
  std::size_t count = 0;
  while (count < bytes.size() && is_plain(bytes[count])) ++count;
  return count;
}

/// The next item of an E line and how many bytes it stands for.
struct Item {
  std::string text;
  std::size_t bytes = 1;
};

Item next_item(Bytes bytes) {
  const std::size_t plain = plain_at_start(bytes);
  if (plain < 2) return {fmt::format(" {:x}", bytes[0]), 1};
  return {
      " '" + std::string(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(plain)) + "'",
      plain};
}

}  // namespace

std::string enter_bytes(std::uint16_t offset, std::span<const std::uint8_t> bytes) {
  std::string script, line;
  std::size_t items = 0;
  const auto finish = [&] {
    if (!line.empty()) script += line + "\r\n";
    line.clear();
    items = 0;
  };
  for (std::size_t done = 0; done < bytes.size();) {
    const Bytes rest = bytes.subspan(done);
    const std::size_t zeros = zeros_at_start(rest);
    if (zeros >= zeros_worth) {
      finish();
      script += fmt::format("f{:x}l{:x} 0\r\n", offset + done, zeros);
      done += zeros;
      continue;
    }
    const Item item = next_item(rest);
    if (line.size() + item.text.size() > line_most) finish();
    if (line.empty()) line = fmt::format("e{:x}", offset + done);
    line += item.text;
    done += item.bytes;
    ++items;
  }
  if (!line.empty())
    for (; items < least_items; ++items) line += " 0";
  finish();
  return script;
}

}  // namespace rtcmend
