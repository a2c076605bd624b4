#include "judge/layout_evidence.h"

#include <algorithm>
#include <set>

#include "judge/examine.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

using Bytes = std::vector<std::optional<std::uint8_t>>;

Bytes ram_of(const Image& image) {
  Bytes bytes;
  for (std::size_t at = Image::ram_start; at < image.size(); ++at)
    bytes.push_back(image.at(static_cast<Address>(at)));
  return bytes;
}

void weigh(const Layout& layout, const Image& image, LayoutEvidence& evidence) {
  const auto results = evaluate_all(layout, image);
  for (std::size_t i = 0; i < results.size(); ++i) {
    if (!results[i].counts || results[i].blank) continue;
    if (results[i].ok())
      ++evidence.checks[i].held;
    else if (results[i].stored && results[i].computed)
      ++evidence.checks[i].failed;
  }
}

LayoutEvidence::OfField weigh(const Field& field, std::span<const Image> dumps) {
  LayoutEvidence::OfField of_field{field.id};
  std::set<std::string> values;
  for (const Image& image : dumps) {
    const FieldReading reading = read_field(field, image);
    if (!reading.known || !reading.in_use) continue;
    ++(reading.legal ? of_field.legal : of_field.odd);
    values.insert(reading.text);
  }
  of_field.values = values.size();
  return of_field;
}

Addresses alike_in(std::span<const Image> dumps) {
  Addresses alike;
  for (std::size_t i = Image::ram_start; !dumps.empty() && i < dumps.front().size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (std::ranges::all_of(dumps, [&](const Image& image) {
          return i < image.size() && image.at(at) == dumps.front().at(at);
        }))
      alike.push_back(at);
  }
  return alike;
}

}  // namespace

bool LayoutEvidence::is_unopposed() const {
  return std::ranges::none_of(checks, [](const OfCheck& check) { return check.failed > 0; }) &&
         std::ranges::none_of(fields, [](const OfField& field) { return field.odd > 0; });
}

LayoutEvidence evidence_for(const Layout& layout, std::span<const Image> dumps) {
  LayoutEvidence evidence;
  evidence.dumps = dumps.size();
  std::set<Bytes> different;
  for (const Check& check : layout.checks) evidence.checks.push_back({check.id});
  for (const Image& image : dumps) {
    different.insert(ram_of(image));
    weigh(layout, image, evidence);
  }
  evidence.different = different.size();
  for (const Field& field : layout.fields) evidence.fields.push_back(weigh(field, dumps));
  evidence.never_changed = alike_in(dumps);
  return evidence;
}

}  // namespace rtcmend
