#include "forms/row_slips.h"

#include <algorithm>
#include <fmt/format.h>
#include <string_view>
#include <utility>

#include "base/look_alikes.h"
#include "base/text.h"

namespace rtcmend {

namespace {

/// A row as it may have been meant, and the slip that made it what it is.
struct Guess {
  Row meant;
  std::string slip;
};

using Guesses = std::vector<Guess>;

constexpr unsigned shifts[] = {4, 0};  // the two digits of a byte, as they are read

std::uint8_t with_digit(std::uint8_t byte, unsigned shift, unsigned digit) {
  return static_cast<std::uint8_t>((byte & ~(0xFU << shift)) | digit << shift);
}

std::uint8_t swapped_digits(std::uint8_t byte) {
  return static_cast<std::uint8_t>(byte << 4 | byte >> 4);
}

std::string place_of(const Row& row, std::size_t column) {
  return hex_prose(static_cast<std::uint8_t>(row.address + column));
}

std::string byte_slip(const Row& row, std::size_t column, std::uint8_t meant) {
  return fmt::format("{} at {} was read as {}", hex2(meant), place_of(row, column),
                     hex2(*row.bytes[column]));
}

Row with_byte(Row row, std::size_t column, std::uint8_t value) {
  row.bytes[column] = value;
  return row;
}

/// Every row that differs in one digit of one byte, by a look-alike (or not).
Guesses digit_guesses(const Row& row, bool alike) {
  Guesses guesses;
  for (std::size_t column = 0; column < bytes_a_row; ++column) {
    if (!row.bytes[column]) continue;
    for (const unsigned shift : shifts) {
      const unsigned found = (*row.bytes[column] >> shift) & 0xFU;
      for (unsigned digit = 0; digit <= 0xF; ++digit) {
        if (digit == found || look_alike(digit, found) != alike) continue;
        const std::uint8_t meant = with_digit(*row.bytes[column], shift, digit);
        guesses.push_back({with_byte(row, column, meant), byte_slip(row, column, meant)});
      }
    }
  }
  return guesses;
}

Guesses swapped_digit_guesses(const Row& row) {
  Guesses guesses;
  for (std::size_t column = 0; column < bytes_a_row; ++column) {
    if (!row.bytes[column]) continue;
    const std::uint8_t meant = swapped_digits(*row.bytes[column]);
    guesses.push_back({with_byte(row, column, meant), byte_slip(row, column, meant)});
  }
  return guesses;
}

Guesses swapped_byte_guesses(const Row& row) {
  Guesses guesses;
  for (std::size_t column = 0; column + 1 < bytes_a_row; ++column) {
    const DumpByte left = row.bytes[column];
    const DumpByte right = row.bytes[column + 1];
    if (!left || !right) continue;
    Row meant = row;
    std::swap(meant.bytes[column], meant.bytes[column + 1]);
    guesses.push_back(
        {meant, fmt::format("{} and {} at {} and {} were swapped", hex2(*left), hex2(*right),
                            place_of(row, column), place_of(row, column + 1))});
  }
  return guesses;
}

/// The last digit of a byte swapped with the first of the next: 12 34 for 13 24.
Guesses digits_across_bytes_guesses(const Row& row) {
  Guesses guesses;
  for (std::size_t column = 0; column + 1 < bytes_a_row; ++column) {
    if (!row.bytes[column] || !row.bytes[column + 1]) continue;
    const std::uint8_t left = *row.bytes[column];
    const std::uint8_t right = *row.bytes[column + 1];
    const std::uint8_t meant_left = with_digit(left, 0, right >> 4);
    const std::uint8_t meant_right = with_digit(right, 4, left & 0xF);
    Row meant = with_byte(with_byte(row, column, meant_left), column + 1, meant_right);
    guesses.push_back(
        {meant, fmt::format("{} {} at {} was read as {} {}", hex2(meant_left), hex2(meant_right),
                            place_of(row, column), hex2(left), hex2(right))});
  }
  return guesses;
}

Guesses address_guesses(const Row& row) {
  Guesses guesses;
  for (std::size_t at = 0; at < Image::large_size; at += bytes_a_row) {
    Row meant = row;
    meant.address = static_cast<std::uint8_t>(at);
    guesses.push_back({meant, fmt::format("this is row {}, read as {}", hex_prose(meant.address),
                                          hex_prose(row.address))});
  }
  return guesses;
}

/// The code itself with one digit wrong, whichever, or its two swapped.
Guesses code_guesses(const Row& row) {
  Row meant = row;
  meant.code = row_code(row);
  const unsigned changed = meant.code ^ row.code;
  const bool one_digit = (changed & 0xF0U) == 0 || (changed & 0x0FU) == 0;
  if (!one_digit && swapped_digits(meant.code) != row.code) return {};
  return {{meant, fmt::format("the code ={} was read as ={}", hex2(meant.code), hex2(row.code))}};
}

/// A byte may have been noted as unreadable after the machine made the code with it.
Guesses unknown_byte_guesses(const Row& row) {
  if (std::count(row.bytes.begin(), row.bytes.end(), std::nullopt) != 1) return {};
  const auto hole = std::find(row.bytes.begin(), row.bytes.end(), std::nullopt);
  const auto column = static_cast<std::size_t>(hole - row.bytes.begin());
  Guesses guesses;
  for (unsigned value = 0; value <= 0xFF; ++value) {
    const auto byte = static_cast<std::uint8_t>(value);
    guesses.push_back(
        {with_byte(row, column, byte),
         fmt::format("the unknown byte at {} is {}", place_of(row, column), hex2(byte))});
  }
  return guesses;
}

void keep_fitting(std::vector<std::string>& slips, const Row& row, const Guesses& guesses) {
  for (const Guess& guess : guesses)
    if (guess.meant != row && fits_code(guess.meant)) slips.push_back(guess.slip);
}

}  // namespace

std::vector<std::string> usual_slips(const Row& row) {
  std::vector<std::string> slips;
  keep_fitting(slips, row, swapped_digit_guesses(row));
  keep_fitting(slips, row, swapped_byte_guesses(row));
  keep_fitting(slips, row, digit_guesses(row, true));
  keep_fitting(slips, row, digits_across_bytes_guesses(row));
  keep_fitting(slips, row, unknown_byte_guesses(row));
  keep_fitting(slips, row, address_guesses(row));
  keep_fitting(slips, row, code_guesses(row));
  return slips;
}

std::vector<std::string> other_slips(const Row& row) {
  std::vector<std::string> slips;
  keep_fitting(slips, row, digit_guesses(row, false));
  return slips;
}

std::string slip_remedy(const Row& row) {
  constexpr std::size_t most = 3;
  std::vector<std::string> slips = usual_slips(row);
  if (slips.size() == 1) return "the likely slip: " + slips.front();
  const bool usual = !slips.empty();
  if (!usual) slips = other_slips(row);
  if (slips.empty() || slips.size() > most * 2)
    return "compare the whole row with its source: more than one digit is wrong, or the code is";
  if (slips.size() > most) slips.resize(most);
  return fmt::format("compare the row with its source; one of these would explain it: {}{}",
                     join(slips, "; "), usual ? "" : "; or the code itself was miscopied");
}

char digit_for(char letter) {
  constexpr std::pair<std::string_view, char> meant[] = {{"OoQ", '0'}, {"Il|i!L", '1'}, {"Zz", '2'},
                                                         {"Ss", '5'},  {"G", '6'},      {"Tt", '7'},
                                                         {"gq", '9'}};
  for (const auto& [letters, digit] : meant)
    if (letters.find(letter) != std::string_view::npos) return digit;
  return 0;
}

}  // namespace rtcmend
