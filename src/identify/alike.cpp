#include "identify/alike.h"

#include <algorithm>
#include <bitset>
#include <fmt/format.h>
#include <iterator>

#include "base/text.h"
#include "check/check.h"
#include "layout/same_layout.h"

namespace rtcmend {

namespace {

bool same_rule_and_place(const Check& a, const Check& b) {
  return a.rule == b.rule && a.stored_at == b.stored_at && a.order == b.order;
}

/// The check of another layout that stores the same kind of result in the same place.
const Check* counterpart(const Check& check, const Layout& other) {
  for (const Check& candidate : other.checks)
    if (same_rule_and_place(check, candidate)) return &candidate;
  return nullptr;
}

std::vector<const Check*> checks_beyond(const Layout& special, const Layout& plain) {
  std::vector<const Check*> beyond;
  for (const Check& check : special.checks)
    if (counterpart(check, plain) == nullptr) beyond.push_back(&check);
  return beyond;
}

std::bitset<Image::large_size> named_bytes(const Layout& layout) {
  std::bitset<Image::large_size> named;
  for (const Field& field : layout.fields) {
    for (const BitSlice& slice : field.bits) named.set(slice.at);
    if (field.escape) named.set(field.escape->at);
  }
  return named;
}

/// Bytes that one layout's fields name and the other's do not.
Addresses bytes_beyond(const Layout& special, const Layout& plain) {
  const auto apart = named_bytes(special) & ~named_bytes(plain);
  Addresses beyond;
  for (std::size_t i = 0; i < special.size; ++i)
    if (apart[i]) beyond.push_back(static_cast<Address>(i));
  return beyond;
}

/// Bytes that only one of two checks covers.
Addresses coverage_apart(const Check& a, const Check& b) {
  Addresses of_a = covered_addresses(a), of_b = covered_addresses(b), apart;
  std::sort(of_a.begin(), of_a.end());
  std::sort(of_b.begin(), of_b.end());
  std::set_symmetric_difference(of_a.begin(), of_a.end(), of_b.begin(), of_b.end(),
                                std::back_inserter(apart));
  return apart;
}

/// Bytes that only one of two layouts has in a check.
Addresses coverage_apart(const Layout& one, const Layout& other) {
  for (const Check& check : one.checks) {
    const Check* own = counterpart(check, other);
    if (own == nullptr) continue;
    if (Addresses apart = coverage_apart(check, *own); !apart.empty()) return apart;
  }
  return {};
}

std::string empty_area(const Layout& special, const Check& check, const Image& image) {
  const Addresses covered = covered_addresses(check);
  return fmt::format(
      "{} also keeps a check over {}, where every byte is {}: a dump taken once the machine keeps "
      "something there would tell.",
      special.id, to_prose(covered), hex_prose(image[covered.front()]));
}

std::string other_coverage(const Layout& one, const Layout& other, const Addresses& apart) {
  return fmt::format(
      "{} and {} differ in whether {} counts in a check, and that makes no difference here: a dump "
      "in which it holds something else would tell.",
      one.id, other.id, to_prose(apart));
}

std::string more_fields(const Layout& special, const Addresses& beyond) {
  return fmt::format(
      "{} also names {}: the machine's own setup tells whether it keeps such things there.",
      special.id, to_prose(beyond));
}

std::string sentence(const Layout& plain, const Layout& other, const Image& image) {
  for (const Check* check : checks_beyond(other, plain))
    if (evaluate(*check, image).blank) return empty_area(other, *check, image);
  if (const Addresses apart = coverage_apart(plain, other); !apart.empty())
    return other_coverage(plain, other, apart);
  if (const Addresses beyond = bytes_beyond(other, plain); !beyond.empty())
    return more_fields(other, beyond);
  return fmt::format(
      "{} and {} read the same bytes differently: compare what both say with what is fitted.",
      plain.id, other.id);
}

bool is_plain_sum(const Check& check) {
  const auto* sum = std::get_if<SumRule>(&check.rule);
  return sum != nullptr && !sum->pairs;
}

/// Whether the other layout has a check that stores the same value as long as only fields of
/// `plain` change: the same one, or a sum that comes to the same now and differs in covering bytes
/// that no field names.
bool seals_alike(const Check& check, const Layout& plain, const Layout& other, const Image& image) {
  const Check* own = counterpart(check, other);
  if (own == nullptr) return false;
  const Addresses apart = coverage_apart(check, *own);
  if (apart.empty()) return true;
  const auto comes_to = evaluate(check, image).computed;
  return is_plain_sum(check) && comes_to && comes_to == evaluate(*own, image).computed &&
         std::all_of(apart.begin(), apart.end(),
                     [&](Address at) { return plain.fields_at(at).empty(); });
}

bool is_silent(const Check& check, const Image& image) {
  const CheckResult result = evaluate(check, image);
  return !result.counts || (result.blank && result.stored == result.computed);
}

}  // namespace

std::vector<std::string> what_settles(const std::vector<const Layout*>& tied, const Image& image) {
  std::vector<std::string> sentences;
  for (std::size_t i = 1; i < tied.size(); ++i)
    sentences.push_back(sentence(*tied.front(), *tied[i], image));
  return sentences;
}

std::string because_of(const Layout& one, const Layout& other, const Image& image) {
  const Addresses apart = coverage_apart(one, other);
  if (apart.empty()) return {};
  const bool zero = std::all_of(apart.begin(), apart.end(),
                                [&](Address at) { return image.at(at) == std::uint8_t{0}; });
  if (!zero) return {};
  return fmt::format(" because {} {} 00", to_prose(apart), apart.size() == 1 ? "is" : "are");
}

bool can_stand_in(const Layout& plain, const Layout& other, const Image& image) {
  const auto beyond = checks_beyond(other, plain);
  return includes_fields(other, plain) &&
         std::all_of(plain.checks.begin(), plain.checks.end(),
                     [&](const Check& check) { return seals_alike(check, plain, other, image); }) &&
         std::all_of(beyond.begin(), beyond.end(),
                     [&](const Check* check) { return is_silent(*check, image); });
}

}  // namespace rtcmend
