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

/// The few bytes of an image that some answer rests on.
class RestingPlaces {
 public:
  static constexpr std::size_t most = 8;

  RestingPlaces() = default;
  /// At most `most` of them.
  explicit RestingPlaces(const Addresses& addresses) : count_(addresses.size()) {
    std::copy(addresses.begin(), addresses.end(), at_.begin());
  }
  std::size_t count() const { return count_; }

  /// The bytes there as one number.
  std::uint64_t key(const Image& image) const {
    std::uint64_t key = 0;
    for (std::size_t i = 0; i < count_; ++i) key = key << 8 | image[at_[i]];
    return key;
  }

 private:
  std::array<Address, most> at_{};
  std::size_t count_ = 0;
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

/// Recall for an answer that rests on bytes of the image alone.
template <typename Answer>
class ImageRecall {
 public:
  explicit ImageRecall(const RestingPlaces& places, unsigned room = 10)
      : places_(places), recall_(places.count() * 8, room) {}

  template <typename Ask>
  const Answer& operator()(const Image& image, const Ask& ask) {
    return recall_(places_.key(image), ask);
  }

 private:
  RestingPlaces places_;
  Recall<Answer> recall_;
};

/// resting_places() of the field; nothing when they are more than RestingPlaces hold.
std::optional<RestingPlaces> places_of_field(const Field& field, const Layout& layout);

}  // namespace rtcmend
