#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// Two hex digits, upper case: "0A".
std::string hex2(std::uint8_t value);
/// Hex for prose: "2Eh".
std::string hex_prose(std::uint8_t value);
/// Reads hex digits without marks, either case. Nothing for an empty text, another character, or a
/// value over `most`.
std::optional<std::uint32_t> parse_hex(std::string_view digits, std::uint32_t most);
/// Reads a decimal whole number, a minus sign allowed. Nothing for anything else or on overflow.
std::optional<std::int64_t> parse_integer(std::string_view digits);

std::string_view trim(std::string_view text);
std::string lower(std::string_view text);
/// Pieces between separators; an empty text gives one empty piece.
std::vector<std::string> split(std::string_view text, char separator);
/// Lines without their ends; LF, CRLF and CR all end a line.
std::vector<std::string_view> lines(std::string_view text);
std::string join(const std::vector<std::string>& parts, std::string_view between);

/// How many letters must change to turn one word into the other (insert, drop, replace, swap).
std::size_t edit_distance(std::string_view a, std::string_view b);
/// The candidates nearest to a mistyped word, best first, at most `most`; none when all are far
/// off.
std::vector<std::string> nearest(std::string_view word, const std::vector<std::string>& candidates,
                                 std::size_t most = 3);

/// Text from outside made safe for a terminal: control characters, terminal escapes, direction
/// marks and invalid UTF-8 become \xNN or \u{NNNN}.
std::string printable(std::string_view text);
/// JSON in which the same characters are written as \uNNNN. Its controls below 20h are so already.
std::string printable_json(std::string_view json);
/// Words folded at `width` columns, every line but the first indented by `indent` spaces. A word
/// longer than the line stands alone.
std::string fold(std::string_view text, std::size_t width, std::size_t indent);
/// A number with its noun: "1 fault", "2 faults", "no faults".
std::string counted(std::size_t count, std::string_view noun);

}  // namespace rtcmend
