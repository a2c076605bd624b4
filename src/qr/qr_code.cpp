#include "qr/qr_code.h"

#include <algorithm>
#include <cstdlib>

#include "qr/codewords.h"

namespace rtcmend {

namespace {

constexpr int side = QrCode::side;
constexpr int timing = 6;             // the row and the column of alternate modules
constexpr int alignment_centre = 30;  // of the one small square, both ways
/// Level L and mask 4 with their check bits, already xored with the mask of this field.
constexpr unsigned format_bits = 0x662F;

/// Mask 4: fields of three by two, so that the zeros of a blank chip become no fine chequers, which
/// a picture out of focus would wash out first.
bool is_masked(int row, int column) {
  return (row / 2 + column / 3) % 2 == 0;
}

/// Modules that no data goes to: finders with what is around them, timing, alignment.
bool is_fixed(int row, int column) {
  const bool top = row <= 8, left = column <= 8;
  const bool bottom = row >= side - 8, right = column >= side - 8;
  if (top && (left || right)) return true;
  if (bottom && left) return true;
  if (row == timing || column == timing) return true;
  return std::abs(row - alignment_centre) <= 2 && std::abs(column - alignment_centre) <= 2;
}

/// Squares within squares: dark but for the ring at this distance from the centre.
void put_square(QrCode& code, int row, int column, int reach, int light_ring) {
  for (int down = -reach; down <= reach; ++down)
    for (int right = -reach; right <= reach; ++right)
      code.set(row + down, column + right, std::max(std::abs(down), std::abs(right)) != light_ring);
}

void put_fixed(QrCode& code) {
  for (int i = 0; i < side; ++i) {
    code.set(timing, i, i % 2 == 0);
    code.set(i, timing, i % 2 == 0);
  }
  for (const auto& [row, column] : {std::pair{3, 3}, {3, side - 4}, {side - 4, 3}})
    put_square(code, row, column, 3, 2);
  put_square(code, alignment_centre, alignment_centre, 2, 1);
  // What parts the finders from the rest, over the timing that began in them.
  for (const int end : {7, side - 8}) {
    code.set(timing, end, false);
    code.set(end, timing, false);
  }
}

/// The format stands twice: around the finder above left, and shared by the two others.
void put_format(QrCode& code) {
  for (int bit = 0; bit < 15; ++bit) {
    const bool dark = (format_bits >> bit & 1) != 0;
    const int beside = bit < 6 ? bit : bit < 8 ? bit + 1 : side - 15 + bit;
    const int below = bit < 8 ? side - 1 - bit : bit == 8 ? 7 : 14 - bit;
    code.set(beside, 8, dark);
    code.set(8, below, dark);
  }
  code.set(side - 8, 8, true);  // dark in every code
}

/// Bits go up and down through columns two wide, from the right, past the timing column.
void put_data(QrCode& code, const Codewords& bytes) {
  std::size_t bit = 0;
  int step = -1, row = side - 1;
  for (int right = side - 1; right > 0; right -= 2, step = -step, row += step) {
    if (right == timing) --right;
    for (; row >= 0 && row < side; row += step)
      for (const int column : {right, right - 1}) {
        if (is_fixed(row, column)) continue;
        // Behind the last byte come seven bits that say nothing.
        const bool one = bit / 8 < bytes.size() && (bytes[bit / 8] << bit % 8 & 0x80) != 0;
        code.set(row, column, one != is_masked(row, column));
        ++bit;
      }
  }
}

}  // namespace

QrCode qr_code(std::string_view text) {
  QrCode code;
  put_fixed(code);
  put_format(code);
  put_data(code, codewords_of(text));
  return code;
}

}  // namespace rtcmend
