#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// The few bits of an image that some answer rests on.
class DecidingBits {
 public:
  static constexpr std::size_t most_bytes = 8;  ///< that they stand in

  DecidingBits() = default;
  /// All bits of these bytes, at most `most_bytes`.
  explicit DecidingBits(const Addresses& whole_bytes);
  /// Nothing when they stand in more than `most_bytes`.
  static std::optional<DecidingBits> of(const std::vector<BitSlice>& slices);

  /// Of the key, in bits.
  unsigned width() const { return width_; }

  /// These bits of the image as one number, together with those that lie between them in a byte.
  std::uint64_t key(const Image& image) const {
    std::uint64_t key = 0;
    for (std::size_t i = 0; i < count_; ++i) {
      const Part& part = parts_[i];
      key = key << part.width | (std::uint64_t{image[part.at]} >> part.low & part.ones);
    }
    return key;
  }

 private:
  /// Those in one byte.
  struct Part {
    Address at = 0;
    std::uint8_t low = 0, width = 0, ones = 0;
  };
  void add(Address at, std::uint8_t mask);

  std::array<Part, most_bytes> parts_{};
  std::size_t count_ = 0;
  unsigned width_ = 0;
};

/// Remembers answers by what they rest on, a number each, so that a slow function is asked once
/// for what comes again and again. Of answers whose places in the memory coincide the last one
/// stays, so it never grows past its room and never says anything that was not answered for the
/// same number.
template <typename Answer>
class Recall {
 public:
  /// bits: how long the numbers are. room: at most 2 to this power answers are kept; more than the
  /// processor's cache holds would cost more than asking again.
  explicit Recall(std::size_t bits = 64, unsigned room = 10)
      : is_short_(bits <= 8), most_room_(is_short_ ? 8 : room) {}

  /// Good until the next question.
  template <typename Ask>
  const Answer& operator()(std::uint64_t key, const Ask& ask) {
    if (!slots_.empty()) {
      const Slot& slot = slots_[place(key)];
      if (slot.answer && slot.key == key) return *slot.answer;
    }
    return keep({key, ask()});
  }

 private:
  struct Slot {
    std::uint64_t key = 0;
    std::optional<Answer> answer;
  };

  std::size_t place(std::uint64_t key) const {
    // Multiplying by 2^64 over the golden ratio spreads neighbouring numbers (Knuth, 6.4).
    return is_short_ ? key & (slots_.size() - 1) : key * 0x9E3779B97F4A7C15U >> (64 - room_);
  }

  /// Of many questions that could be asked few ever are, and few dumps ask few: the memory begins
  /// small, and doubles when as many answers had to be asked for as it has room for.
  const Answer& keep(Slot asked) {
    if (asked_ >= slots_.size() && room_ < most_room_) {
      room_ = room_ == 0 ? std::min(4U, most_room_) : room_ + 1;
      std::vector<Slot> former(std::size_t{1} << room_);
      former.swap(slots_);
      for (Slot& slot : former)
        if (slot.answer) slots_[place(slot.key)] = std::move(slot);
    }
    ++asked_;
    return *(slots_[place(asked.key)] = std::move(asked)).answer;
  }

  bool is_short_;
  unsigned room_ = 0, most_room_;
  std::size_t asked_ = 0;  ///< answers
  std::vector<Slot> slots_;
};

/// resting_bits() of the field; nothing when they are more than DecidingBits hold.
std::optional<DecidingBits> bits_that_decide(const Field& field, const Layout& layout);

}  // namespace rtcmend
