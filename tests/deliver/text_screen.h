#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "support/code_readers.h"

namespace rtcmend::test {

/// The text screen behind int 10h: modes 0 to 3 (40 and 80 columns in colour) and 7 (monochrome).
class TextScreen {
 public:
  static constexpr std::size_t lines = 25;

  explicit TextScreen(std::uint8_t mode = 3) { set_mode(mode); }
  std::uint8_t mode() const { return mode_; }
  std::size_t columns() const { return mode_ < 2 ? 40 : 80; }

  /// A display that stays in 40 columns whatever it is told.
  bool only_narrow = false;

  /// Functions 00h, 02h and 0Eh of int 10h (RBIL61).
  void set_mode(std::uint8_t mode);
  void place(std::size_t line, std::size_t column);
  void put(char character);

  /// The characters of a line, as they stand there.
  std::string line(std::size_t number) const;

 private:
  std::uint8_t mode_ = 3;
  std::size_t cursor_line_ = 0, cursor_column_ = 0;
  std::array<std::string, lines> cells_;
};

/// Half a character of the screen is lit or dark; what other characters than the four blocks show
/// is taken for dark.
bool is_lit(const TextScreen& screen, std::size_t half_line, std::size_t column);

}  // namespace rtcmend::test
