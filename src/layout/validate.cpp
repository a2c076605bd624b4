#include "layout/validate.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <map>
#include <set>

#include "base/error.h"
#include "base/text.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

/// Who owns each bit of the chip.
class Claims {
 public:
  Claims(const Layout& layout) : size_(layout.size) {}

  void claim(const BitSlice& slice, const std::string& owner, const std::string& where) {
    if (slice.at >= size_)
      refuse(where, fmt::format("{} is at {}, past the end of a chip of {} bytes", owner,
                                hex_prose(slice.at), size_));
    if (slice.at < Image::ram_start)
      refuse(where,
             fmt::format("{} is at {}, which belongs to the clock", owner, hex_prose(slice.at)),
             "fields and checks live in the RAM, 0Eh and up; the clock is decoded by itself");
    for (unsigned bit = slice.low; bit <= slice.high; ++bit) {
      std::string& holder = owners_[slice.at][bit];
      if (!holder.empty())
        refuse(where, fmt::format("{} claims bit {} of {}, which {} has already", owner, bit,
                                  hex_prose(slice.at), holder));
      holder = owner;
    }
  }

 private:
  std::size_t size_;
  std::array<std::array<std::string, 8>, Image::large_size> owners_;
};

/// Refuses a range with values that the bits cannot hold: writing one would store another.
void check_range(const Field& field, const std::string& where) {
  if (!field.least) return;
  if (*field.least > *field.most) refuse(where, "its range ends before it begins");
  const unsigned bits = bit_count(field);
  std::int64_t least = 0, codes = 1;
  if (field.meaning == Meaning::bcd) {
    for (unsigned digit = 0; digit < bits / 4; ++digit) codes *= 10;
  } else {
    codes <<= bits;
    least = field.offset;
  }
  const std::int64_t most = least + (codes - 1) * field.scale;
  if (*field.least < least || *field.most > most)
    refuse(where, fmt::format("its range goes past what its bits can hold, {}-{}", least, most));
}

void check_shape(const Field& field, const std::string& where) {
  const unsigned bits = bit_count(field);
  if (is_long(field)) {
    for (const BitSlice& slice : field.bits)
      if (slice.mask() != 0xFF && field.meaning != Meaning::concealed)
        refuse(where, "bytes and text take whole bytes, not bits");
    return;
  }
  if (bits > 32) refuse(where, fmt::format("it has {} bits, and a number takes up to 32", bits));
  if (field.meaning == Meaning::flag && bits != 1) refuse(where, "a flag is one bit");
  if (field.meaning == Meaning::bcd && bits % 4 != 0)
    refuse(where, "BCD takes four bits a digit, so its bits come in fours");
  const std::uint64_t limit = (std::uint64_t{1} << bits) - 1;
  std::set<std::string> names;
  for (const Choice& choice : field.choices) {
    if (choice.raw > limit)
      refuse(where, fmt::format("the code {} does not fit in {} bits", choice.raw, bits));
    if (!names.insert(choice.name).second)
      refuse(where, fmt::format("two codes are named \"{}\"", choice.name));
  }
  check_range(field, where);
  if (!field.escape) return;
  if (field.meaning != Meaning::number) refuse(where, "only a number can have an escape");
  if (field.escape->when > limit) refuse(where, "its escape code does not fit in its bits");
  if (field.escape->least > field.escape->most)
    refuse(where, "its escape range ends before it begins");
}

void check_follows(const Field& field, const Layout& layout, const std::string& where) {
  if (!field.follows) return;
  using How = Follows::How;
  const How how = field.follows->how;
  if (how == How::any && field.meaning != Meaning::flag)
    refuse(where, "a field that follows \"any\" is a flag");
  if (how == How::count && field.meaning != Meaning::number)
    refuse(where, "a field that follows a \"count\" is a number");
  for (const std::string& id : field.follows->of) {
    const Field* leader = layout.field(id);
    if (leader == nullptr)
      refuse(where, fmt::format("it follows \"{}\", which is not a field", id));
    if (leader->follows)
      refuse(where, fmt::format("it follows \"{}\", which itself follows another field", id),
             "name the field at the head of the line");
    if (how == How::same && leader->meaning != field.meaning)
      refuse(where, fmt::format("it follows \"{}\", which is of another kind", id));
  }
}

void check_preset(const Field& field, const std::string& where) {
  if (std::holds_alternative<std::monostate>(field.preset)) return;
  if (const std::string why = illegal_because(field, field.preset); !why.empty())
    refuse(where, "its default is not legal: " + why, "legal: " + legal_values(field));
}

void check_rule_fits(const Check& check, const std::string& where) {
  if (const auto* crc = std::get_if<CrcRule>(&check.rule)) {
    const CrcModel& model = crc->model;
    if (model.width == 8 && (model.poly | model.init | model.xorout) > 0xFF)
      refuse(where, "the parameters of an 8-bit CRC are two hex digits each");
    if ((model.poly & 1) == 0)
      refuse(where, "the polynomial has no constant term, so it would not see every byte",
             "give the polynomial highest power first, without its top bit: 1021");
  }
  if (const auto* sum = std::get_if<SumRule>(&check.rule); sum != nullptr && sum->width == 8) {
    if (sum->start > 0xFF) refuse(where, "an 8-bit sum starts from two hex digits");
    if (sum->pairs) refuse(where, "a sum of byte pairs has 16 bits");
  }
}

void check_coverage(const Check& check, const Layout& layout, const std::string& where) {
  std::set<Address> seen;
  for (const Covered& covered : check.over) {
    if (covered.range.first < Image::ram_start)
      refuse(where, "it covers clock bytes, which change by themselves");
    for (const Address at : to_addresses(covered.range))
      if (!seen.insert(at).second) refuse(where, fmt::format("it covers {} twice", hex_prose(at)));
  }
  if (std::all_of(seen.begin(), seen.end(), [&](Address at) { return layout.is_private(at); }))
    refuse(where, "it covers nothing but a password, and its value would give that away",
           "leave the check out, and make a private field of its stored bytes");
  for (const Address at : stored_addresses(check))
    if (seen.contains(at))
      refuse(where, fmt::format("it covers {}, where its own result is stored", hex_prose(at)),
             "leave the stored bytes out of \"over\"");
}

}  // namespace

void validate(const Layout& layout, const Origins& origins) {
  Claims claims(layout);
  std::set<std::string> names;
  for (std::size_t i = 0; i < layout.fields.size(); ++i) {
    const Field& field = layout.fields[i];
    const std::string& where = origins.fields[i];
    if (!names.insert(field.id).second)
      refuse(where, fmt::format("the field \"{}\" is defined twice", field.id));
    check_shape(field, where);
    for (const BitSlice& slice : field.bits) claims.claim(slice, field.id, where);
    if (field.escape) claims.claim({field.escape->at, 7, 0}, field.id, where);
  }
  for (std::size_t i = 0; i < layout.checks.size(); ++i) {
    const Check& check = layout.checks[i];
    const std::string& where = origins.checks[i];
    if (!names.insert(check.id).second)
      refuse(where, fmt::format("the name \"{}\" is taken already", check.id));
    check_rule_fits(check, where);
    check_coverage(check, layout, where);
    for (const Address at : stored_addresses(check)) claims.claim({at, 7, 0}, check.id, where);
  }
  // Only now, when every name is known.
  for (std::size_t i = 0; i < layout.fields.size(); ++i) {
    check_follows(layout.fields[i], layout, origins.fields[i]);
    check_preset(layout.fields[i], origins.fields[i]);
  }
}

}  // namespace rtcmend
