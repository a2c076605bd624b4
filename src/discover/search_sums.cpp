#include <algorithm>
#include <array>

#include "discover/places.h"
#include "discover/search.h"

namespace rtcmend {

namespace {

// Sums of the first n bytes of a run, kept apart by even and odd position: any range of any form
// follows from two of them.
struct Prefix {
  std::uint32_t even = 0, odd = 0;
  std::uint8_t all = 0;  // xored
};

std::vector<Prefix> prefixes(const Evidence::Bytes& dump, const Addresses& run) {
  std::vector<Prefix> sums(run.size() + 1);
  for (std::size_t i = 0; i < run.size(); ++i) {
    sums[i + 1] = sums[i];
    (i % 2 == 0 ? sums[i + 1].even : sums[i + 1].odd) += dump[run[i]];
    sums[i + 1].all ^= dump[run[i]];
  }
  return sums;
}

std::vector<Form> open_forms(const Question& question, unsigned width) {
  std::vector<Form> forms;
  const auto add_sum = [&](bool inverse, std::optional<Order> pairs) {
    forms.push_back({.kind = Form::Kind::sum, .width = width, .inverse = inverse, .pairs = pairs});
  };
  if (question.sums) add_sum(false, std::nullopt);
  if (width == 8 ? wants_inverse_bytes(question) : question.sums) add_sum(true, std::nullopt);
  if (width == 16 && question.sums) {
    for (const bool inverse : {false, true})
      for (const Order order : {Order::low_first, Order::high_first}) add_sum(inverse, order);
  }
  if (width == 8 && question.xors)
    forms.push_back({.kind = Form::Kind::exclusive_or, .width = 8, .pairs = std::nullopt});
  return forms;
}

// One run of coverable bytes with everything that is looked up in it.
struct Field {
  const Evidence& evidence;
  const Addresses& run;
  std::vector<std::vector<Prefix>> sums;  // by dump
};

std::uint32_t value_in(const Field& field, const Form& form, std::size_t dump, std::size_t first,
                       std::size_t end) {
  const Prefix& before = field.sums[dump][first];
  const Prefix& after = field.sums[dump][end];
  if (form.kind == Form::Kind::exclusive_or) return before.all ^ after.all;
  const std::uint32_t even = after.even - before.even, odd = after.odd - before.odd;
  if (!form.pairs) return even + odd;
  const bool starts_even = first % 2 == 0;
  const std::uint32_t leading = starts_even ? even : odd, trailing = starts_even ? odd : even;
  return *form.pairs == Order::low_first ? leading + (trailing << 8) : (leading << 8) + trailing;
}

// What a stored value must change by between the reference and a dump.
std::uint16_t wanted_change(const Field& field, const Form& form, std::size_t pair,
                            std::size_t first, std::size_t end) {
  const std::uint32_t reference = value_in(field, form, 0, first, end);
  const std::uint32_t other = value_in(field, form, pair + 1, first, end);
  if (form.kind == Form::Kind::exclusive_or) return static_cast<std::uint16_t>(reference ^ other);
  const std::uint32_t rise = form.inverse ? reference - other : other - reference;
  return static_cast<std::uint16_t>(form.width == 8 ? rise & 0xFFU : rise & 0xFFFFU);
}

std::uint16_t stored_change(const Evidence& evidence, const Form& form, const Place& place,
                            std::size_t pair) {
  const auto reference = stored_in(evidence.dumps[0], place.at, place.order, form.width);
  const auto other = stored_in(evidence.dumps[pair + 1], place.at, place.order, form.width);
  return form.kind == Form::Kind::exclusive_or
             ? static_cast<std::uint16_t>(reference ^ other)
             : static_cast<std::uint16_t>(form.width == 8 ? (other - reference) & 0xFF
                                                          : other - reference);
}

ChangeIndex index_changes(const Evidence& evidence, const Form& form,
                          const std::vector<Place>& places, std::size_t pair) {
  std::vector<ChangeIndex::Entry> entries;
  for (std::size_t i = 0; i < places.size(); ++i)
    entries.push_back(
        {stored_change(evidence, form, places[i], pair), static_cast<std::uint16_t>(i), false});
  return ChangeIndex(std::move(entries));
}

bool other_pairs_agree(const Field& field, const Form& form, const Place& place, std::size_t first,
                       std::size_t end) {
  for (std::size_t pair = 1; pair < field.evidence.pairs(); ++pair)
    if (wanted_change(field, form, pair, first, end) !=
        stored_change(field.evidence, form, place, pair))
      return false;
  return true;
}

void keep(const Evidence& evidence, const Fit& fit, const Threshold& threshold, Catch& caught) {
  if (evidence_bits(evidence, fit) >= threshold.least_bits)
    caught.fits.push_back(fit);
  else
    ++caught.dismissed;
}

void search_range(const Field& field, const Form& form, const std::vector<Place>& places,
                  const ChangeIndex& index, std::size_t first, std::size_t end,
                  const Threshold& threshold, Catch& caught) {
  const auto wanted = wanted_change(field, form, 0, first, end);
  if (!index.has(wanted)) return;
  const Range range{field.run[first], field.run[end - 1]};
  for (const ChangeIndex::Entry& entry : index.find(wanted)) {
    const Place& place = places[entry.place];
    if (!stands_clear(field.evidence, range, place.at, form.width)) continue;
    if (other_pairs_agree(field, form, place, first, end))
      keep(field.evidence, {form, range, place.at, place.order}, threshold, caught);
  }
}

}  // namespace

Catch search_sums(const Evidence& evidence, const Question& question, unsigned width,
                  const Threshold& threshold) {
  Catch caught;
  const std::vector<Place> places = open_places(evidence, question, width);
  for (const Form& form : open_forms(question, width)) {
    const ChangeIndex index = index_changes(evidence, form, places, 0);
    for (const Addresses& run : evidence.runs) {
      Field field{evidence, run, {}};
      for (const Evidence::Bytes& dump : evidence.dumps) field.sums.push_back(prefixes(dump, run));
      for (std::size_t first = 0; first < run.size(); ++first) {
        bool changed = false;  // a range without a byte that changed says nothing
        for (std::size_t end = first + 1; end <= run.size(); ++end) {
          changed = changed || evidence.varies[run[end - 1]];
          if (!changed) continue;
          if (question.over && *question.over != Range{run[first], run[end - 1]}) continue;
          search_range(field, form, places, index, first, end, threshold, caught);
        }
      }
    }
  }
  return caught;
}

}  // namespace rtcmend
