#pragma once

#include <bitset>
#include <cstddef>
#include <string_view>

namespace rtcmend {

/// A QR code (ISO/IEC 18004) of version 5: dark and light modules in a square.
class QrCode {
 public:
  static constexpr int side = 37;  ///< modules a side
  /// Light modules that a reader wants around it, by the standard.
  static constexpr int quiet = 4;

  /// False outside, where the quiet zone is.
  bool dark(int row, int column) const { return is_inside(row, column) && dark_[at(row, column)]; }
  void set(int row, int column, bool is_dark) { dark_[at(row, column)] = is_dark; }

  friend bool operator==(const QrCode&, const QrCode&) = default;

 private:
  static bool is_inside(int row, int column) {
    return row >= 0 && row < side && column >= 0 && column < side;
  }
  static std::size_t at(int row, int column) {
    return static_cast<std::size_t>(row * side + column);
  }

  std::bitset<side * side> dark_;
};

/// The code of version 5 with error correction level L (it mends up to 13 of 134 bytes) that says a
/// text in capitals, digits, blanks and $ % * + - . / : (the alphanumeric set). Refuses (Error)
/// another character and more than 154 of them. The mask is always the same one, where the standard
/// would have the encoder weigh all eight: every reader takes whichever the code names, and so a
/// program of few bytes makes the same code.
QrCode qr_code(std::string_view text);

}  // namespace rtcmend
