#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "layout/layout.h"
#include "repair/probe.h"

namespace rtcmend {

/// The fields of a layout that follow this one.
std::vector<const Field*> followers_of(const Field& leader, const Layout& layout);

/// By how much the values of one field move a check's gap. For fields of numbers, choices and
/// flags, up to 32 bits.
class FieldMoves {
 public:
  /// The gap must outlive it.
  FieldMoves(const Field& field, const Discrepancy& gap, const Image& image);
  /// From what the image holds to this code and escape byte.
  std::uint16_t to(std::uint64_t code, std::uint8_t escaped) const;

 private:
  std::uint16_t whole(std::uint64_t code, std::uint8_t escaped) const;

  const Discrepancy* gap_;
  std::array<std::uint16_t, 32> of_code_{};
  Discrepancy::Moves of_escape_{};
  std::uint16_t now_ = 0;
};

/// What a setup program does when it changes a field: it writes the field's own bytes, and those of
/// fields that follow it. Ready for one value after another.
class SetupChange {
 public:
  /// All must outlive it. followers: those of followers_of() that may make a difference.
  SetupChange(const Field& field, const std::vector<const Field*>& followers, const Layout& layout,
              const Image& image, const std::vector<Probe>& probes);

  /// Whether all checks may hold with this value, its followers changed with it or left alone; it
  /// is one of the field's choices, or any number. As with a probe, evaluate() has the last word.
  bool may_hold(const Value& value) const;

 private:
  struct Part {
    const Field* field;
    std::size_t others_present;     ///< other leaders that are not zero
    bool is_copy;                   ///< holds just the leader's code
    std::uint8_t unused_escape;     ///< what its escape byte holds for a value that needs none
    std::vector<FieldMoves> moves;  ///< one for each probe
  };
  struct Code {
    std::uint64_t bits;
    std::uint8_t escaped;
  };
  Part part(const Field& field, const Image& image) const;
  void add(const Field& follower, const Layout& layout, const Image& image);
  Value expected(const Part& follower, const Value& value) const;
  std::optional<Code> code_of_follower(const Part& follower, const Value& value,
                                       const Code& own) const;
  static Code code(const Part& part, const Value& value);
  bool decides_something(const Field& field) const;

  const std::vector<Probe>& probes_;
  Part own_;
  std::vector<Part> followers_;
  bool uncertain_ = false;  ///< a condition hangs on bytes that are written
};

}  // namespace rtcmend
