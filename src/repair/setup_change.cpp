#include "repair/setup_change.h"

#include <algorithm>
#include <bit>
#include <functional>
#include <utility>

#include "judge/relations.h"
#include "layout/code.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

/// Whether a follower can be told from this leader.
bool says_something(const FieldReading& leader) {
  return leader.known && leader.in_use && !std::holds_alternative<std::monostate>(leader.value);
}

bool same_escape(const std::optional<Escape>& a, const std::optional<Escape>& b) {
  if (!a || !b) return !a && !b;
  return a->when == b->when && a->least == b->least && a->most == b->most;
}

bool same_width(const BitSlice& a, const BitSlice& b) {
  return a.width() == b.width();
}

/// Whether a follower is to hold just the leader's code, for every legal value of the leader.
bool is_copy(const Field& follower, const Field& leader) {
  return follower.follows && follower.follows->how == Follows::How::same &&
         follower.meaning == leader.meaning && follower.scale == leader.scale &&
         follower.offset == leader.offset && follower.choices == leader.choices &&
         std::ranges::equal(follower.bits, leader.bits, same_width) &&
         same_escape(follower.escape, leader.escape) && !follower.least && !follower.most &&
         !leader.least && !leader.most;
}

}  // namespace

std::vector<const Field*> followers_of(const Field& leader, const Layout& layout) {
  std::vector<const Field*> followers;
  for (const Field& field : layout.fields) {
    if (!field.follows) continue;
    const auto& of = field.follows->of;
    if (std::find(of.begin(), of.end(), leader.id) != of.end()) followers.push_back(&field);
  }
  return followers;
}

FieldMoves::FieldMoves(const Field& field, const Discrepancy& gap, const Image& image)
    : gap_(&gap) {
  std::uint64_t code = 0;
  std::size_t bit = 0;
  for (auto slice = field.bits.rbegin(); slice != field.bits.rend(); ++slice)
    for (unsigned own = slice->low; own <= slice->high; ++own, ++bit) {
      of_code_[bit] = gap.moves(slice->at)[own];
      code |= std::uint64_t{image[slice->at] >> own & 1U} << bit;
    }
  if (field.escape) of_escape_ = gap.moves(field.escape->at);
  now_ = whole(code, field.escape ? image[field.escape->at] : std::uint8_t{0});
}

std::uint16_t FieldMoves::whole(std::uint64_t code, std::uint8_t escaped) const {
  const auto all_of = [&](const auto& join) {
    unsigned all = 0;
    for (auto rest = static_cast<std::uint32_t>(code); rest != 0; rest &= rest - 1)
      all = join(all, of_code_[static_cast<unsigned>(std::countr_zero(rest))]);
    for (unsigned rest = escaped; rest != 0; rest &= rest - 1)
      all = join(all, of_escape_[static_cast<unsigned>(std::countr_zero(rest))]);
    return gap_->joined(0, static_cast<std::uint16_t>(all));
  };
  return gap_->carries() ? all_of(std::plus()) : all_of(std::bit_xor());
}

std::uint16_t FieldMoves::to(std::uint64_t code, std::uint8_t escaped) const {
  return gap_->parted(whole(code, escaped), now_);
}

SetupChange::SetupChange(const Field& field, const std::vector<const Field*>& followers,
                         const Layout& layout, const Image& image, const std::vector<Probe>& probes)
    : probes_(probes), own_{&field, 0, false, 0, {}}, uncertain_(decides_something(field)) {
  own_ = part(field, image);
  for (const Field* follower : followers) add(*follower, layout, image);
}

bool SetupChange::decides_something(const Field& field) const {
  const Addresses own = addresses(field);
  return std::any_of(own.begin(), own.end(), [&](Address at) {
    return std::any_of(probes_.begin(), probes_.end(),
                       [=](const Probe& probe) { return probe.decides(at); });
  });
}

SetupChange::Part SetupChange::part(const Field& field, const Image& image) const {
  Part part{&field,
            0,
            is_copy(field, *own_.field),
            field.escape ? unused_escape_byte(field, image) : std::uint8_t{0},
            {}};
  for (const Probe& probe : probes_) part.moves.emplace_back(field, probe.gap(), image);
  return part;
}

void SetupChange::add(const Field& follower, const Layout& layout, const Image& image) {
  const Addresses own = addresses(*own_.field);
  const bool use_may_change =
      std::any_of(follower.when.begin(), follower.when.end(), [&](const UsedWhile& condition) {
        return std::binary_search(own.begin(), own.end(), condition.bits.at);
      });
  uncertain_ = uncertain_ || use_may_change || decides_something(follower);
  if (!is_in_use(follower, image)) return;
  Part added = part(follower, image);
  for (const std::string& id : follower.follows->of) {
    if (id == own_.field->id) continue;
    const FieldReading other = read_value(layout.need_field(id), image);
    if (!says_something(other)) return;
    if (other.raw != 0) ++added.others_present;
  }
  followers_.push_back(std::move(added));
}

SetupChange::Code SetupChange::code(const Part& part, const Value& value) {
  const auto* number = std::get_if<std::int64_t>(&value);
  const bool escaped = number != nullptr && in_escape(*part.field, *number);
  return {code_of(*part.field, value),
          escaped ? static_cast<std::uint8_t>(*number) : part.unused_escape};
}

std::optional<SetupChange::Code> SetupChange::code_of_follower(const Part& follower,
                                                               const Value& value,
                                                               const Code& own) const {
  if (follower.is_copy) return own;
  const Value follows = expected(follower, value);
  if (!illegal_because(*follower.field, follows).empty()) return std::nullopt;
  return code(follower, follows);
}

Value SetupChange::expected(const Part& follower, const Value& value) const {
  const Follows& follows = *follower.field->follows;
  if (follows.how == Follows::How::same) return followed_value(*follower.field, value);
  const bool is_present = code_of(*own_.field, value) != 0;
  const std::size_t present = follower.others_present + (is_present ? 1U : 0U);
  if (follows.how == Follows::How::any) return present > 0;
  return std::max<std::int64_t>(static_cast<std::int64_t>(present), follows.least);
}

bool SetupChange::may_hold(const Value& value) const {
  if (uncertain_) return true;
  const Code own = code(own_, value);
  const auto after_own = [&](std::size_t probe) {
    const Discrepancy& gap = probes_[probe].gap();
    return gap.joined(gap.now(), own_.moves[probe].to(own.bits, own.escaped));
  };
  bool alone = true;
  for (std::size_t probe = 0; probe < probes_.size() && alone; ++probe)
    alone = after_own(probe) == 0;
  if (alone || followers_.empty()) return alone;

  for (std::size_t probe = 0; probe < probes_.size(); ++probe) {
    std::uint16_t gap = after_own(probe);
    for (const Part& follower : followers_)
      if (const auto theirs = code_of_follower(follower, value, own))
        gap = probes_[probe].gap().joined(gap,
                                          follower.moves[probe].to(theirs->bits, theirs->escaped));
    if (gap != 0) return false;
  }
  return true;
}

}  // namespace rtcmend
