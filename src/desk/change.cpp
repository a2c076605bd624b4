#include "desk/change.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "desk/ready.h"
#include "layout/codec.h"
#include "layout/owners.h"
#include "layout/privacy.h"
#include "make/settings.h"

namespace rtcmend {

namespace {

[[noreturn]] void refuse_bytes(std::string_view text) {
  refuse_choice("byte", fmt::format("\"{}\" is not an address and bytes", printable(text)),
                {{"In hex", Act{Act::Kind::choose, "byte", "2D=40"}}});
}

void need_changeable(const Layout& layout, const Image& image, Address at) {
  if (at >= image.size())
    refuse_choice("byte", fmt::format("{:02X}h is outside the chip's {} bytes", at, image.size()));
  if (layout.is_private(at))
    refuse_choice(
        "byte",
        fmt::format("byte {} belongs to a password, which rtcmend does not change", hex_prose(at)));
}

}  // namespace

std::vector<ByteSetting> parse_bytes(std::string_view text) {
  const std::size_t equals = std::min(text.find('='), text.size());
  const auto first = parse_hex(text.substr(0, equals), 0x7F);
  const std::string_view digits = text.substr(std::min(equals + 1, text.size()));
  if (!first || digits.empty() || digits.size() % 2 != 0) refuse_bytes(text);
  std::vector<ByteSetting> bytes;
  for (std::size_t i = 0; i < digits.size(); i += 2) {
    const auto byte = parse_hex(digits.substr(i, 2), 0xFF);
    if (!byte || *first + i / 2 > 0xFF) refuse_bytes(text);
    bytes.push_back({static_cast<Address>(*first + i / 2), static_cast<std::uint8_t>(*byte)});
  }
  return bytes;
}

Image with_fields(const Image& image, const Layout& layout, const std::vector<Setting>& settings) {
  return with_followers(with_settings(image, layout, settings), layout, settings,
                        Followers::of_settings);
}

Image with_byte_settings(const Image& image, const Layout& layout,
                         const std::vector<ByteSetting>& bytes) {
  Image changed = image;
  for (const ByteSetting& byte : bytes) {
    need_changeable(layout, image, byte.at);
    changed.set(byte.at, byte.value);
  }
  return changed;
}

Image with_time(const Image& image, const Layout& layout, const DateTime& time) {
  return with_clock(image, layout, {}, time);
}

namespace {

/// What is wrong with the reading that further dumps cannot mend.
std::vector<Finding> beyond_votes(std::vector<Finding> reading) {
  std::erase_if(reading,
                [](const Finding& one) { return one.kind == FindingKind::unstable_reads; });
  return reading;
}

}  // namespace

std::vector<Suspect> open_suspects(const Image& image, const Layout& layout,
                                   const std::vector<Finding>& reading,
                                   const Provenance& provenance) {
  if (is_misread(beyond_votes(reading))) return {};
  return suspects(image, layout, provenance);
}

Amended with_repair(const Image& image, const Layout& layout, const std::vector<Finding>& reading,
                    const Provenance& provenance, std::string_view suspect) {
  if (is_misread(beyond_votes(reading)))
    refuse_choice("accept", "the dump was misread, and no small repair makes up for that",
                  "read the chip again");
  const auto all = suspects(image, layout, provenance);
  const Suspect& made = need_suspect(all, suspect);
  return {repaired(image, made), made.settles ? beyond_votes(reading) : reading};
}

Amended amended(const Image& image, const Layout& layout, const std::vector<Finding>& reading,
                const Provenance& provenance, const Amendment& amendment) {
  Amended now{image, reading};
  for (const std::string& repair : amendment.repairs)
    now = with_repair(now.image, layout, now.reading, provenance, repair);
  if (amendment.only_repairs()) return now;
  now.image = amend(with_byte_settings(now.image, layout, amendment.bytes), layout,
                    amendment.settings, amendment.clock);
  return now;
}

std::string mode_change(const Image& before, const Image& after) {
  const auto old = mode_of(before), now = mode_of(after);
  if (!old || !now || *old == *now) return {};
  return fmt::format("The clock now counts in {}, as PC firmware reads it; register B had {}.",
                     mode_words(*now), mode_words(*old));
}

std::vector<Change> changes(const Image& before, const Image& after, const Layout& layout) {
  std::vector<Change> found;
  for (std::size_t i = 0; i < before.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (before.at(at) == after.at(at)) continue;
    const bool both = before.known(at) && after.known(at);
    const auto bits = static_cast<std::uint8_t>(both ? before[at] ^ after[at] : 0xFF);
    const auto ids = owners(layout, at, told_bits(layout, at, bits));
    if (layout.is_private(at))
      found.push_back({at, std::nullopt, std::nullopt, ids, true});
    else
      found.push_back({at, before.at(at), after.at(at), ids, false});
  }
  return found;
}

namespace {

std::string words_of(const Field& field, const Image& image) {
  const FieldReading reading = read_field(field, image);
  return reading.in_use ? reading.text : "not in use";
}

}  // namespace

std::vector<FieldChange> field_changes(const Image& before, const Image& after,
                                       const Layout& layout) {
  std::vector<FieldChange> found;
  for (const Field& field : layout.fields) {
    const std::string old = words_of(field, before), now = words_of(field, after);
    if (old != now) found.push_back({field.id, field.label, old, now});
  }
  return found;
}

}  // namespace rtcmend
