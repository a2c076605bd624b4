#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace rtcmend {

/// How the bytes of a dump came to us.
enum class Origin {
  machine,  ///< a program or a programmer wrote them down
  hand      ///< a listing, which somebody may have typed or pasted
};

/// What may have happened where a check does not hold.
enum class Mishap {
  one_bit,
  one_byte,
  neighbours_exchanged,
  bytes_exchanged,
  look_alike,
  other_digit,
  digits_exchanged,
  digits_across,
  row_slipped,
  column_slipped,
  digit_doubled,
  rows_exchanged,
  two_slips,
  changed_unsealed,
  never_sealed,
  something_else
};

/// A line of the table of causes.
struct MishapShare {
  Mishap cause;
  double machine, hand;       ///< its share of the dumps with a failed check, by their origin
  std::string_view what;      ///< in a few words
  std::string_view standing;  ///< what the shares rest on
};

// How often each is met among dumps with a failed check: the one place where that is said. The
// columns each make one whole. That firmware and people do these things is common practice; how
// often is judgement, and docs/figures.md shows how the odds that come of it fare.
inline constexpr std::array causes = {
    MishapShare{Mishap::one_bit, 0.50, 0.05, "one bit flipped, as a cell fades or a contact is bad",
                "judgement"},
    MishapShare{Mishap::one_byte, 0.20, 0.04, "one byte is another", "judgement"},
    MishapShare{Mishap::neighbours_exchanged, 0.02, 0.07,
                "two bytes side by side in each other's place",
                "common practice, share by judgement"},
    MishapShare{Mishap::bytes_exchanged, 0.01, 0.01, "two bytes in each other's place",
                "judgement"},
    MishapShare{Mishap::look_alike, 0, 0.33, "a digit taken for one that looks like it",
                "common practice, share by judgement"},
    MishapShare{Mishap::other_digit, 0, 0.11, "a digit mistyped",
                "common practice, share by judgement"},
    MishapShare{Mishap::digits_exchanged, 0, 0.08, "the two digits of a byte exchanged",
                "common practice, share by judgement"},
    MishapShare{Mishap::digits_across, 0, 0.02,
                "the last digit of a byte and the first of the next", "judgement"},
    MishapShare{Mishap::row_slipped, 0, 0.04, "a byte taken from the row above or below",
                "common practice, share by judgement"},
    MishapShare{Mishap::column_slipped, 0, 0.03,
                "a byte of a row written twice, and another left out", "judgement"},
    MishapShare{Mishap::digit_doubled, 0, 0.02,
                "a digit of a row written twice, and another left out", "judgement"},
    MishapShare{Mishap::rows_exchanged, 0, 0.01, "two rows in each other's place", "judgement"},
    MishapShare{Mishap::two_slips, 0, 0.11, "two slips of the hand or eye", "judgement"},
    MishapShare{Mishap::changed_unsealed, 0.11, 0.03,
                "a setting changed, and nothing sealed after it", "judgement"},
    MishapShare{Mishap::never_sealed, 0.04, 0.01, "check bytes that were never right", "judgement"},
    MishapShare{Mishap::something_else, 0.12, 0.04, "none of these", "judgement"},
};

/// The share of a cause among dumps of this origin.
constexpr double share_of(Mishap cause, Origin origin) {
  const MishapShare& line = causes[static_cast<std::size_t>(cause)];
  return origin == Origin::hand ? line.hand : line.machine;
}

/// Whether every cause stands at its own place, and each column makes one whole.
consteval bool causes_are_whole() {
  double machine = 0, hand = 0;
  for (std::size_t i = 0; i < causes.size(); ++i) {
    if (static_cast<std::size_t>(causes[i].cause) != i) return false;
    machine += causes[i].machine;
    hand += causes[i].hand;
  }
  const auto is_one = [](double sum) { return sum > 0.999 && sum < 1.001; };
  return is_one(machine) && is_one(hand);
}
static_assert(causes_are_whole());

}  // namespace rtcmend
