#include "repair/best_guess.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "check/discrepancy.h"
#include "images/image_chance.h"
#include "judge/examine.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

using Bytes = std::vector<std::pair<Address, std::uint8_t>>;

struct Undo {
  Bytes bytes;    ///< what stood there
  double chance;  ///< that this damage came of it
};

Image with(const Image& image, const Bytes& bytes) {
  Image changed = image;
  for (const auto& [at, byte] : bytes) changed.set(at, byte);
  return changed;
}

std::uint8_t turned(std::uint8_t byte) {
  return static_cast<std::uint8_t>(byte << 4 | byte >> 4);
}

unsigned digit_of(char letter) {
  return static_cast<unsigned>(letter <= '9' ? letter - '0' : letter - 'A' + 10);
}

class Guesser {
 public:
  Guesser(const Plant& plant, const Layout& layout, std::string_view only)
      : plant_(plant),
        dump_(plant.dump),
        layout_(layout),
        only_(only),
        where_(guarded(layout)),
        count_(static_cast<double>(where_.size())) {
    for (const Address at : where_)
      if (is_guarded(at + 1)) lefts_.push_back(at);
  }

  std::vector<Guess> operator()() {
    singly("one bit", bits());
    singly("one byte", any_bytes());
    singly("neighbours", neighbours());
    singly("look-alike digit", look_alikes());
    singly("other digit", other_digits());
    singly("digits exchanged", digits_exchanged());
    singly("row slipped", rows_slipped());
    two_slips();
    sealing();
    std::vector<Guess> all;
    for (const auto& [bytes, guess] : guesses_) all.push_back(guess);
    std::stable_sort(all.begin(), all.end(),
                     [](const Guess& a, const Guess& b) { return a.bits > b.bits; });
    return all;
  }

 private:
  bool is_guarded(int at) const {
    return std::find(where_.begin(), where_.end(), at) != where_.end();
  }
  double share(std::string_view kind) const {
    if (!only_.empty()) return kind == only_ ? 1 : 0;
    return share_of_kind(plant_.arrival, kind);
  }
  bool all_hold(const Image& image) const {
    const auto results = evaluate_all(layout_, image);
    return std::all_of(results.begin(), results.end(),
                       [](const CheckResult& result) { return !result.counts || result.ok(); });
  }
  bool fits_text(const Image& image) const {
    return plant_.text.empty() || text_of(image) == plant_.text;
  }
  void add(const Image& right, double bits) {
    if (bits == -std::numeric_limits<double>::infinity()) return;
    auto [known, is_new] = guesses_.try_emplace(
        std::vector<std::uint8_t>(right.bytes().begin(), right.bytes().end()), Guess{right, bits});
    if (is_new) return;
    const double high = std::max(known->second.bits, bits),
                 low = std::min(known->second.bits, bits);
    known->second.bits = high + std::log2(1 + std::exp2(low - high));
  }
  void singly(std::string_view kind, const std::vector<Undo>& undoings) {
    if (share(kind) == 0) return;
    for (const Undo& undo : undoings) {
      const Image right = with(dump_, undo.bytes);
      if (fits_text(right) && all_hold(right))
        add(right, std::log2(share(kind) * undo.chance) + image_chance(right, layout_));
    }
  }

  std::vector<Undo> bits() const {
    std::vector<Undo> all;
    for (const Address at : where_)
      for (unsigned bit = 0; bit < 8; ++bit)
        all.push_back({{{at, static_cast<std::uint8_t>(dump_[at] ^ 1U << bit)}}, 1 / count_ / 8});
    return all;
  }
  std::vector<Undo> any_bytes() const {
    std::vector<Undo> all;
    for (const Address at : where_)
      for (unsigned byte = 0; byte < 256; ++byte)
        all.push_back({{{at, static_cast<std::uint8_t>(byte)}}, 1 / count_ / 256});
    return all;
  }
  std::vector<Undo> neighbours() const {
    std::vector<Undo> all;
    for (const Address at : lefts_) {
      const auto next = static_cast<Address>(at + 1);
      all.push_back(
          {{{at, dump_[next]}, {next, dump_[at]}}, 1 / static_cast<double>(lefts_.size())});
    }
    return all;
  }
  template <typename Each>
  void each_digit(const Each& each) const {
    for (const Address at : where_)
      for (const unsigned shift : {4U, 0U})
        for (unsigned digit = 0; digit < 16; ++digit)
          each(at, dump_[at] >> shift & 0xFU, digit,
               static_cast<std::uint8_t>((dump_[at] & ~(0xFU << shift)) | digit << shift));
  }
  std::vector<Undo> look_alikes() const {
    std::vector<Undo> all;
    each_digit([&](Address at, unsigned found, unsigned meant, std::uint8_t byte) {
      const std::string_view others = digits_taken_for(meant);
      const auto hits = std::count_if(others.begin(), others.end(),
                                      [&](char other) { return digit_of(other) == found; });
      if (hits > 0)
        all.push_back({{{at, byte}}, 1 / count_ / 2 / static_cast<double>(others.size())});
    });
    return all;
  }
  std::vector<Undo> other_digits() const {
    std::vector<Undo> all;
    each_digit([&](Address at, unsigned, unsigned, std::uint8_t byte) {
      all.push_back({{{at, byte}}, 1 / count_ / 2 / 16});
    });
    return all;
  }
  std::vector<Undo> digits_exchanged() const {
    std::vector<Undo> all;
    for (const Address at : where_) all.push_back({{{at, turned(dump_[at])}}, 1 / count_});
    return all;
  }
  std::vector<Undo> rows_slipped() const {
    std::vector<Undo> all;
    for (const Address at : where_)
      for (const int from : {at - 16, at + 16}) {
        if (from < 0 || from >= static_cast<int>(dump_.size())) continue;
        if (dump_[static_cast<Address>(from)] != dump_[at]) continue;
        for (unsigned byte = 0; byte < 256; ++byte)
          all.push_back({{{at, static_cast<std::uint8_t>(byte)}}, 1 / count_ / 2});
      }
    return all;
  }

  std::vector<Undo> slips() const {
    std::vector<Undo> all;
    for (const auto& [kind, undoings] :
         {std::pair{"look-alike digit", look_alikes()}, std::pair{"other digit", other_digits()},
          std::pair{"digits exchanged", digits_exchanged()}, std::pair{"neighbours", neighbours()}})
      for (Undo undo : undoings) {
        std::erase_if(undo.bytes,
                      [&](const auto& byte) { return dump_[byte.first] == byte.second; });
        undo.chance *= share_of_slip(kind);
        if (!undo.bytes.empty()) all.push_back(undo);
      }
    // The same slip by two ways is one.
    std::map<Bytes, double> sums;
    for (const Undo& undo : all) sums[undo.bytes] += undo.chance;
    all.clear();
    for (const auto& [bytes, chance] : sums) all.push_back({bytes, chance});
    return all;
  }
  /// By what they move the gaps of all checks, of which two must add up to the whole.
  void two_slips() {
    if (share("two slips") == 0) return;
    std::vector<Discrepancy> gaps;
    for (const Check& check : layout_.checks) gaps.emplace_back(check, dump_);
    using Key = std::vector<std::uint16_t>;
    std::multimap<Key, const Undo*> by_move;
    const std::vector<Undo> all = slips();
    std::vector<Key> wanted;
    for (const Undo& undo : all) {
      Key moved, rest;
      for (const Discrepancy& gap : gaps) {
        std::uint16_t now = gap.now();
        for (const auto& [at, byte] : undo.bytes) now = gap.moved(now, at, dump_[at], byte);
        moved.push_back(gap.parted(now, gap.now()));
        rest.push_back(gap.parted(0, now));
      }
      by_move.emplace(moved, &undo);
      wanted.push_back(rest);
    }
    for (std::size_t i = 0; i < all.size(); ++i) {
      const auto [first, last] = by_move.equal_range(wanted[i]);
      for (auto other = first; other != last; ++other) add_pair(all[i], *other->second);
    }
  }
  void add_pair(const Undo& a, const Undo& b) {
    for (const auto& [at, byte] : a.bytes)
      for (const auto& [other, same] : b.bytes)
        if (at == other) return;
    const Image right = with(with(dump_, a.bytes), b.bytes);
    if (fits_text(right) && all_hold(right))
      add(right,
          std::log2(share("two slips") * a.chance * b.chance) + image_chance(right, layout_));
  }

  void sealing() {
    if (share("not sealed") == 0 && share("never sealed") == 0) return;
    // The text was written beside these bytes as they are.
    if (!fits_text(dump_)) return;
    Image sealed = dump_;
    for (const std::size_t index : layout_.sealing) seal_one(layout_.checks[index], sealed);
    unsigned bytes = 0;
    bool zero = true, ff = true;
    for (const Check& check : layout_.checks)
      for (const Address at : stored_addresses(check)) {
        ++bytes;
        zero = zero && dump_[at] == 0;
        ff = ff && dump_[at] == 0xFF;
      }
    const double stored = (zero ? 0.25 : 0) + (ff ? 0.25 : 0) + 0.5 * std::exp2(-8.0 * bytes);
    add(sealed, std::log2(share("never sealed") * stored) + image_chance(sealed, layout_));
    if (share("not sealed") == 0) return;
    // Every field with another value under which all checks hold.
    for (Field field : layout_.fields) {
      field.read_only = false;
      const double values = each_value(field, [](const Value&) {});
      if (values == 0 || !read_value(field, dump_).in_use) continue;
      each_value(field, [&](const Value& value) {
        Image before = dump_;
        write_field(field, value, before);
        if (before != dump_ && all_hold(before))
          add(sealed, std::log2(share("not sealed") / eligible_fields() / values) +
                          image_chance(before, layout_));
      });
    }
  }
  double eligible_fields() const {
    double count = 0;
    for (const Field& field : layout_.fields)
      if (each_value(field, [](const Value&) {}) > 0 && read_value(field, dump_).in_use) ++count;
    return count;
  }
  /// As change_a_setting() draws them.
  static double each_value(const Field& field, const std::function<void(const Value&)>& visit) {
    double count = 0;
    const auto take = [&](const Value& value) {
      if (!illegal_because(field, value).empty()) return;
      ++count;
      visit(value);
    };
    if (field.meaning == Meaning::flag) {
      take(Value(false));
      take(Value(true));
    } else if (field.meaning == Meaning::choice) {
      for (const Choice& choice : field.choices) take(Value(choice.name));
    } else if (field.meaning == Meaning::number && bit_count(field) <= 8) {
      for (std::int64_t raw = 0; raw < 1 << bit_count(field); ++raw)
        take(Value(raw * field.scale + field.offset));
    } else if (field.meaning == Meaning::number && field.unit == "KiB") {
      for (std::int64_t step = 0; step < 256; ++step) take(Value(64 * step));
    }
    return count;
  }

  const Plant& plant_;
  const Image& dump_;
  const Layout& layout_;
  std::string_view only_;
  Addresses where_, lefts_;
  double count_;
  std::map<std::vector<std::uint8_t>, Guess> guesses_;
};

}  // namespace

std::vector<Guess> best_guesses(const Plant& plant, const Layout& layout, std::string_view only) {
  return Guesser(plant, layout, only)();
}

double chance_of_first(const std::vector<Guess>& guesses, const Image& right) {
  constexpr double alike = 1e-6;
  if (guesses.empty()) return 0;
  const auto last = std::find_if(guesses.begin(), guesses.end(), [&](const Guess& guess) {
    return guess.bits < guesses.front().bits - alike;
  });
  const bool among =
      std::any_of(guesses.begin(), last, [&](const Guess& guess) { return guess.right == right; });
  return among ? 1.0 / static_cast<double>(last - guesses.begin()) : 0;
}

}  // namespace rtcmend
