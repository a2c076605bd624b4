#include "discover/doubts.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <set>

#include "base/text.h"

namespace rtcmend {

namespace {

TracedField* field_of(Trace& trace, const std::string& setting) {
  for (TracedField& field : trace.fields)
    if (!field.is_shared() && field.settings[0] == setting) return &field;
  return nullptr;
}

void leave_open(TracedField& field, const std::string& why) {
  if (field.open.empty()) field.open = why;
}

std::string bytes_in_words(const std::vector<Bit>& bits) {
  std::set<Address> at;
  for (const Bit& bit : bits) at.insert(bit.at);
  return to_prose({at.begin(), at.end()});
}

// A count shows itself in every dump, and in at least three sizes: with fewer, "one of them" or
// "not both" would do as well.
bool is_count(const std::vector<Image>& images, const TracedField& shared,
              const std::vector<const TracedField*>& of) {
  std::set<std::uint64_t> sizes;
  for (const Image& image : images) {
    const auto fitted = std::ranges::count_if(
        of, [&](const TracedField* field) { return raw_of(field->encoding.bits, image) != 0; });
    if (raw_of(shared.encoding.bits, image) != static_cast<std::uint64_t>(fitted)) return false;
    sizes.insert(static_cast<std::uint64_t>(fitted));
  }
  return sizes.size() > 2;
}

void settle_shared(const std::vector<Image>& images, TracedField& shared, Trace& trace) {
  std::vector<const TracedField*> leaders;
  for (const std::string& setting : shared.settings)
    if (const TracedField* field = field_of(trace, setting)) leaders.push_back(field);
  shared.is_count = leaders.size() == shared.settings.size() && is_count(images, shared, leaders);
  if (shared.is_count) return;
  const std::string why =
      fmt::format("a check or a worked-out value may be at {}: it moves with {}",
                  bytes_in_words(shared.encoding.bits), join(shared.settings, " and "));
  leave_open(shared, why);
  for (const std::string& setting : shared.settings)
    if (TracedField* field = field_of(trace, setting)) leave_open(*field, why);
}

using Bytes = std::map<Address, std::vector<Bit>>;

Bytes by_byte(const std::vector<Bit>& bits) {
  Bytes bytes;
  for (const Bit& bit : bits) bytes[bit.at].push_back(bit);
  return bytes;
}

std::vector<const Image*> images_of(const std::vector<Step>& steps, const std::string& setting) {
  std::vector<const Image*> images;
  for (const Step& step : steps)
    if (step.setting == setting) images.push_back(&step.image);
  return images;
}

std::size_t states(const std::vector<const Image*>& images, const std::vector<Bit>& bits) {
  std::set<std::uint64_t> raws;
  for (const Image* image : images) raws.insert(raw_of(bits, *image));
  return raws.size();
}

std::vector<Bit> without(const std::vector<Bit>& bits, Address at) {
  std::vector<Bit> rest;
  std::ranges::copy_if(bits, std::back_inserter(rest), [at](const Bit& b) { return b.at != at; });
  return rest;
}

// The same bits once more, or the same turned over.
bool repeats(const std::vector<const Image*>& images, const std::vector<Bit>& a,
             const std::vector<Bit>& b) {
  if (a.size() != b.size()) return false;
  const std::uint64_t all = (std::uint64_t{1} << a.size()) - 1;
  const auto always = [&](std::uint64_t turned) {
    return std::ranges::all_of(images, [&](const Image* image) {
      return raw_of(a, *image) == (raw_of(b, *image) ^ turned);
    });
  };
  return always(0) || always(all);
}

// Bytes of a field that tell nothing new: a copy where a check covers it; a check of its own, over
// this setting alone, or a worked-out value for all that anybody knows otherwise.
void doubt_redundant_bytes(const std::vector<Step>& steps, const Addresses& covered,
                           TracedField& field) {
  std::vector<Bit> all = field.encoding.bits;
  for (const auto& copy : field.encoding.copies) all.insert(all.end(), copy.begin(), copy.end());
  const bool is_a_line = field.encoding.kind != Encoding::Kind::choice && field.values.size() > 2;
  if (is_a_line && field.encoding.copies.empty()) return;
  if (all.size() > 64) return leave_open(field, "it moves more bits than one value has");
  const auto images = images_of(steps, field.settings[0]);
  const Bytes bytes = by_byte(all);
  Addresses redundant;
  for (const auto& [at, bits] : bytes) {
    if (bytes.size() < 2 || states(images, without(all, at)) < states(images, all)) continue;
    const bool is_copy = std::ranges::any_of(bytes, [&, byte = at, &own = bits](const auto& other) {
      return other.first != byte && repeats(images, own, other.second);
    });
    if (!is_copy || std::ranges::count(covered, at) == 0) redundant.push_back(at);
  }
  if (!redundant.empty())
    leave_open(field, fmt::format("a check or a worked-out value may be at {}: the other bytes of "
                                  "the setting tell as much without it",
                                  to_prose(redundant)));
}

Addresses covered_by_checks(const Trace& trace) {
  Addresses covered;
  for (const Model& model : trace.checks) {
    if (!model.is_settled()) continue;
    const Addresses bytes = covered_addresses(model.check);
    covered.insert(covered.end(), bytes.begin(), bytes.end());
  }
  return covered;
}

}  // namespace

void settle_fields(const std::vector<Step>& steps, std::span<const Image> mixed, Trace& trace) {
  std::vector<Image> images(mixed.begin(), mixed.end());
  for (const Step& step : steps) images.push_back(step.image);
  for (TracedField& field : trace.fields)
    if (field.is_shared()) settle_shared(images, field, trace);
  const Addresses covered = covered_by_checks(trace);
  for (TracedField& field : trace.fields)
    if (!field.is_shared()) doubt_redundant_bytes(steps, covered, field);
}

}  // namespace rtcmend
