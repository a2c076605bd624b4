#include "deliver/text_screen.h"

namespace rtcmend::test {

void TextScreen::set_mode(std::uint8_t mode) {
  mode_ = only_narrow && mode < 4 ? mode & 1 : mode;
  cells_.fill(std::string(columns(), ' '));
  place(0, 0);
}

void TextScreen::place(std::size_t line, std::size_t column) {
  cursor_line_ = line;
  cursor_column_ = column;
}

void TextScreen::put(char character) {
  if (character == '\r') {
    cursor_column_ = 0;
  } else if (character == '\n') {
    ++cursor_line_;
  } else {
    cells_[cursor_line_][cursor_column_++] = character;
    if (cursor_column_ == columns()) {
      cursor_column_ = 0;
      ++cursor_line_;
    }
  }
  if (cursor_line_ < lines) return;
  for (std::size_t i = 0; i + 1 < lines; ++i) cells_[i] = cells_[i + 1];
  cells_.back() = std::string(columns(), ' ');
  cursor_line_ = lines - 1;
}

std::string TextScreen::line(std::size_t number) const {
  return cells_[number];
}

bool is_lit(const TextScreen& screen, std::size_t half_line, std::size_t column) {
  const char cell = screen.line(half_line / 2)[column];
  const bool upper = half_line % 2 == 0;
  return cell == '\xDB' || cell == (upper ? '\xDF' : '\xDC');
}

}  // namespace rtcmend::test
