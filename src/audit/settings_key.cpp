#include "audit/settings_key.h"

#include <algorithm>
#include <cstring>

#include "audit/worth.h"

namespace rtcmend {

namespace {

constexpr std::size_t most_masks = 64;  // far more layouts than come up in one audit

std::array<std::uint8_t, Image::large_size> mask_for(const Layout* layout) {
  std::array<std::uint8_t, Image::large_size> mask;
  mask.fill(0xFF);
  std::fill_n(mask.begin(), Image::ram_start, std::uint8_t{0});  // the chip's own bytes
  if (layout == nullptr) return mask;
  for (const Field& field : layout->fields)
    if (field.is_volatile)
      for (const BitSlice& slice : field.bits)
        mask[slice.at] = static_cast<std::uint8_t>(mask[slice.at] & ~slice.mask());
  return mask;
}

std::uint64_t word_at(const std::uint8_t* bytes) {
  std::uint64_t word;
  std::memcpy(&word, bytes, sizeof word);
  return word;
}

/// One more word in a key. The factors are odd, so that nothing is lost (those of the finalizer in
/// MurmurHash3, which is in the public domain).
void mix(std::uint64_t word, SettingsKey& key) {
  key.low = (key.low ^ word) * 0xFF51AFD7ED558CCDULL;
  key.high = (key.high ^ (word << 32 | word >> 32)) * 0xC4CEB9FE1A85EC53ULL;
  key.low ^= key.low >> 29;
  key.high ^= key.high >> 31;
}

bool has_settings(const Verdict& verdict) {
  const FindingSet& found = verdict.findings;
  return standing_of(found).dump == Standing::Dump::trusted && !found.has(FindingKind::blank) &&
         !found.has(FindingKind::ram_cleared) && verdict.looks != Looks::half_read;
}

}  // namespace

KeySecret KeySecret::fresh() {
  std::random_device dice;
  const auto word = [&] { return std::uint64_t{dice()} << 32 | dice(); };
  const std::uint64_t low = word();
  return {low, word()};
}

const SettingsKeys::Bytes& SettingsKeys::mask_of(const std::shared_ptr<const Layout>& layout) {
  for (const auto& [known, mask] : masks_)
    if (known == layout) return mask;
  if (masks_.size() >= most_masks) masks_.clear();
  return masks_.emplace_back(layout, mask_for(layout.get())).second;
}

std::optional<SettingsKey> SettingsKeys::operator()(const Image& image, const Verdict& verdict) {
  if (!has_settings(verdict)) return std::nullopt;
  for (std::size_t at = Image::ram_start; !image.all_known() && at < image.size(); ++at)
    if (!image.known(static_cast<Address>(at))) return std::nullopt;
  // A part of 64 bytes that was read as 128 holds them twice.
  const std::size_t size =
      verdict.findings.has(FindingKind::halves_mirrored) ? Image::small_size : image.size();
  const Bytes& mask = mask_of(verdict.layout);
  SettingsKey key{secret_.low ^ size, secret_.high};
  const std::uint8_t* bytes = image.bytes().data();
  for (std::size_t at = 0; at < size; at += 8)
    mix(word_at(bytes + at) & word_at(mask.data() + at), key);
  mix(key.high, key);
  return key;
}

Copies::First& Copies::place_of(const SettingsKey& key) {
  const std::size_t mask = table_.size() - 1;  // the size is a power of two
  std::size_t at = static_cast<std::size_t>(key.low) & mask;
  while (table_[at].number != 0 && table_[at].key != key) at = (at + 1) & mask;
  return table_[at];
}

void Copies::make_room() {
  if (count_ < table_.size() - table_.size() / 4) return;
  std::vector<First> before(table_.size() * 2);
  before.swap(table_);
  for (const First& one : before)
    if (one.number != 0) place_of(one.key) = one;
}

std::optional<std::size_t> Copies::first_of(const SettingsKey& key, std::size_t number) {
  make_room();
  First& place = place_of(key);
  if (place.number != 0) return place.number;
  if (is_full()) return std::nullopt;
  place = {key, number};
  ++count_;
  return std::nullopt;
}

}  // namespace rtcmend
