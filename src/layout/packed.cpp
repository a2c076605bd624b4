#include "layout/packed.h"

#include <concepts>
#include <cstdint>
#include <optional>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

namespace rtcmend {

namespace {

// A tape is a string of bytes that is written (Packer) or read (Unpacker) from its beginning.
// walk() says once, for both directions, what a struct consists of: a tape hands back each number
// that it is given, or the one that it holds instead.

class Packer {
 public:
  static constexpr bool keeps_words = true;

  /// Seven bits a byte, lowest first; the top bit says that more follow. The sign goes lowest, so
  /// that small numbers of either sign are short.
  std::int64_t number(std::int64_t value) {
    auto rest = static_cast<std::uint64_t>(value) << 1 ^ static_cast<std::uint64_t>(value >> 63);
    for (; rest > 0x7F; rest >>= 7) bytes_ += static_cast<char>(0x80 | (rest & 0x7F));
    bytes_ += static_cast<char>(rest);
    return value;
  }
  void text(const std::string& text) {
    number(static_cast<std::int64_t>(text.size()));
    bytes_ += text;
  }
  void words(const std::string& words) { text(words); }
  std::string take() { return std::move(bytes_); }

 private:
  std::string bytes_;
};

class Unpacker {
 public:
  static constexpr bool keeps_words = true;

  explicit Unpacker(std::string_view bytes) : bytes_(bytes) {}

  std::int64_t number(std::int64_t) {
    std::uint64_t rest = 0;
    for (unsigned shift = 0;; shift += 7) {
      const auto byte = static_cast<std::uint8_t>(bytes_[next_++]);
      rest |= std::uint64_t{byte & 0x7FU} << shift;
      if (byte < 0x80) break;
    }
    return static_cast<std::int64_t>(rest >> 1 ^ (0 - (rest & 1)));
  }
  void text(std::string& text) { text = next(); }
  void words(std::string& words) { words = next(); }

 protected:
  std::string_view next() {
    const auto size = static_cast<std::size_t>(number(0));
    next_ += size;
    return bytes_.substr(next_ - size, size);
  }

 private:
  std::string_view bytes_;
  std::size_t next_ = 0;
};

class OutlineUnpacker : public Unpacker {
 public:
  static constexpr bool keeps_words = false;

  using Unpacker::Unpacker;
  void words(std::string&) { next(); }
};

template <typename Tape, typename Number>
requires std::integral<Number> || std::is_enum_v<Number>
void walk(Tape& tape, Number& value) {
  value = static_cast<Number>(tape.number(static_cast<std::int64_t>(value)));
}

template <typename Tape>
void walk(Tape& tape, std::string& text) {
  tape.text(text);
}

template <typename Tape, typename Part>
void walk(Tape& tape, std::vector<Part>& parts) {
  parts.resize(static_cast<std::size_t>(tape.number(static_cast<std::int64_t>(parts.size()))));
  for (Part& part : parts) walk(tape, part);
}

template <typename Tape, typename Part>
void walk(Tape& tape, std::optional<Part>& part) {
  const bool given = tape.number(part.has_value()) != 0;
  if (given && !part) part.emplace();
  if (given) walk(tape, *part);
}

template <typename Tape>
void walk(Tape&, std::monostate&) {}

template <typename Tape, typename... Kinds>
void walk(Tape& tape, std::variant<Kinds...>& value) {
  const std::int64_t wanted = tape.number(static_cast<std::int64_t>(value.index()));
  std::int64_t index = 0;
  const auto walk_kind = [&]<typename Kind>(std::type_identity<Kind>) {
    if (index++ != wanted) return;
    if (!std::holds_alternative<Kind>(value)) value = Kind{};
    walk(tape, std::get<Kind>(value));
  };
  (walk_kind(std::type_identity<Kinds>{}), ...);
}

template <typename Tape, typename... Parts>
void walk_all(Tape& tape, Parts&... parts) {
  (walk(tape, parts), ...);
}

template <typename Tape>
void walk(Tape& tape, Condition& condition) {
  walk_all(tape, condition.at, condition.mask, condition.value);
}

template <typename Tape>
void walk(Tape& tape, BitSlice& slice) {
  walk_all(tape, slice.at, slice.high, slice.low);
}

template <typename Tape>
void walk(Tape& tape, Choice& choice) {
  walk_all(tape, choice.raw, choice.name);
}

template <typename Tape>
void walk(Tape& tape, Escape& escape) {
  walk_all(tape, escape.when, escape.at, escape.least, escape.most);
}

template <typename Tape>
void walk(Tape& tape, Follows& follows) {
  walk_all(tape, follows.how, follows.of, follows.least, follows.up_to);
}

template <typename Tape>
void walk(Tape& tape, UsedWhile& condition) {
  walk_all(tape, condition.bits, condition.least, condition.most);
}

template <typename Tape>
void walk(Tape& tape, Field& field) {
  walk_all(tape, field.id, field.bits, field.meaning, field.unit, field.scale, field.offset,
           field.least, field.most, field.choices, field.escape, field.follows, field.when,
           field.preset, field.is_volatile, field.read_only, field.is_partial);
  for (std::string* words : {&field.label, &field.group, &field.note, &field.source})
    tape.words(*words);
}

template <typename Tape>
void walk(Tape& tape, Range& range) {
  walk_all(tape, range.first, range.last);
}

template <typename Tape>
void walk(Tape& tape, Covered& covered) {
  walk_all(tape, covered.range, covered.when);
}

template <typename Tape>
void walk(Tape& tape, SumRule& sum) {
  walk_all(tape, sum.width, sum.start, sum.sign, sum.pairs);
}

template <typename Tape>
void walk(Tape& tape, XorRule& all) {
  walk(tape, all.start);
}

template <typename Tape>
void walk(Tape& tape, CrcRule& crc) {
  walk_all(tape, crc.model.width, crc.model.poly, crc.model.init, crc.model.refin, crc.model.refout,
           crc.model.xorout);
}

template <typename Tape>
void walk(Tape& tape, BalanceRule& balance) {
  walk(tape, balance.target);
}

template <typename Tape>
void walk(Tape& tape, Check& check) {
  walk_all(tape, check.id, check.rule, check.over, check.stored_at, check.order, check.when);
  tape.words(check.source);
}

template <typename Tape>
void walk(Tape& tape, DriveType& type) {
  walk_all(tape, type.type, type.cylinders, type.heads, type.sectors, type.write_precompensation,
           type.landing_zone);
}

template <typename Tape>
void walk(Tape& tape, Layout& layout) {
  walk_all(tape, layout.id, layout.of, layout.size, layout.fields, layout.checks, layout.sealing);
  if constexpr (Tape::keeps_words)
    walk_all(tape, layout.title, layout.sources, layout.notes, layout.after_composing,
             layout.when_writing, layout.drive_types);
}

template <typename Tape>
void walk(Tape& tape, LayoutClass& layout_class) {
  walk_all(tape, layout_class.families, layout_class.core);  // an outline does not read to the end
}

template <typename Tape>
void walk(Tape& tape, MetWith& tie) {
  walk_all(tape, tie.trait, tie.standing);
}

template <typename Tape>
void walk(Tape& tape, Trait& trait) {
  walk_all(tape, trait.id, trait.family, trait.of, trait.replaces, trait.not_with, trait.met_with,
           trait.presumed, trait.part);
}

template <typename Piece>
std::string packed(Piece piece) {  // a copy: walk() asks for what it could change
  Packer packer;
  walk(packer, piece);
  return packer.take();
}

template <typename Piece>
Piece unpacked(std::string_view bytes, Unpacked how) {
  Piece piece;
  if (how == Unpacked::whole) {
    Unpacker tape(bytes);
    walk(tape, piece);
  } else {
    OutlineUnpacker tape(bytes);
    walk(tape, piece);
  }
  return piece;
}

}  // namespace

std::string pack(const LayoutClass& layout_class) {
  return packed(layout_class);
}

std::string pack(const Trait& trait) {
  return packed(trait);
}

LayoutClass unpack_class(std::string_view packed, Unpacked how) {
  return unpacked<LayoutClass>(packed, how);
}

Trait unpack_trait(std::string_view packed, Unpacked how) {
  return unpacked<Trait>(packed, how);
}

}  // namespace rtcmend
