#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "base/text.h"
#include "discover/random_dumps.h"
#include "discover/solve.h"
#include "layout/codec.h"
#include "layout/library.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

// A field that a person could set to something of their choice.
bool can_be_set(const Field& field) {
  return !field.follows && !field.read_only && !field.is_volatile && field.when.empty() &&
         field.meaning != Meaning::concealed;
}

std::uint64_t random_raw(const Field& field, Dice& dice) {
  if (field.meaning == Meaning::choice)
    return field.choices[dice.below(static_cast<std::uint32_t>(field.choices.size()))].raw;
  unsigned bits = 0;
  for (const BitSlice& slice : field.bits) bits += slice.width();
  const std::uint32_t word = dice.byte() << 8U | dice.byte();
  return bits >= 16 ? word : word & ((1U << bits) - 1U);
}

void store_raw(const Field& field, std::uint64_t raw, Image& image) {
  for (std::size_t i = field.bits.size(); i-- > 0;) {
    const BitSlice& slice = field.bits[i];
    const auto part = static_cast<std::uint8_t>(raw << slice.low & slice.mask());
    image.set(slice.at, static_cast<std::uint8_t>((image[slice.at] & ~slice.mask()) | part));
    raw >>= slice.width();
  }
}

bool is_covered(const Check& check, const Field& field) {
  const Addresses covered = covered_addresses(check);
  return std::ranges::all_of(field.bits, [&](const BitSlice& slice) {
    return std::ranges::count(covered, slice.at) != 0;
  });
}

// What a person would change between dumps: some settings that the check covers, some others.
std::vector<const Field*> some_fields(const Layout& layout, const Check& check, Dice& dice) {
  std::vector<const Field*> inside, outside;
  for (const Field& field : layout.fields)
    if (can_be_set(field)) (is_covered(check, field) ? inside : outside).push_back(&field);
  const auto pick = [&](std::vector<const Field*>& from, std::size_t most) {
    while (from.size() > most)
      from.erase(from.begin() + dice.below(static_cast<std::uint32_t>(from.size())));
  };
  pick(inside, 7);
  pick(outside, 3);
  inside.insert(inside.end(), outside.begin(), outside.end());
  return inside;
}

// Layouts that name few fields under a check leave the rest to other programs, which write bytes.
Addresses some_bytes(const Check& check, std::size_t fields, Dice& dice) {
  Addresses bytes = covered_addresses(check);
  const std::size_t most = fields < 4 ? 5 : 0;
  while (bytes.size() > most)
    bytes.erase(bytes.begin() + dice.below(static_cast<std::uint32_t>(bytes.size())));
  return bytes;
}

std::vector<Image> composed_images(const Layout& layout, const Check& check, Dice& dice) {
  Image image(layout.size);
  for (std::size_t at = 0; at < layout.size; ++at) image.set(static_cast<Address>(at), 0);
  for (const Field& field : layout.fields)
    if (!std::holds_alternative<std::monostate>(field.preset) && !field.read_only)
      write_field(field, field.preset, image);
  std::vector<Image> images;
  const std::vector<const Field*> fields = some_fields(layout, check, dice);
  const auto covered_fields =
      std::ranges::count_if(fields, [&](const Field* field) { return is_covered(check, *field); });
  const Addresses bytes = some_bytes(check, static_cast<std::size_t>(covered_fields), dice);
  for (int i = 0; i < 4; ++i) {
    for (const Address at : bytes) image.set(at, dice.byte());
    for (const Field* field : fields) store_raw(*field, random_raw(*field, dice), image);
    for (const Check& each : layout.checks)
      for (const Covered& covered : each.over)
        if (covered.when)  // so that the range has no hole
          image.set(covered.when->at,
                    static_cast<std::uint8_t>(image[covered.when->at] | covered.when->value));
    for (const std::size_t each : layout.sealing) seal_one(layout.checks[each], image);
    images.push_back(image);
  }
  return images;
}

// A range that passes over bytes is found when the question says which.
bool has_a_gap(const Check& check) {
  return covered_addresses(check).size() !=
         std::size_t{check.over.back().range.last} - check.over.front().range.first + 1;
}

Range whole_range(const Check& check) {
  return {check.over.front().range.first, check.over.back().range.last};
}

bool is_known(const Check& found, const Check& known) {
  if (found.stored_at != known.stored_at || kind(found) != kind(known)) return false;
  if (width(found) != width(known) || whole_range(found) != whole_range(known)) return false;
  if (width(known) == 16 && found.order != known.order) return false;
  const std::vector<std::uint8_t> probe = {0x12, 0xFE, 0x80, 0x01, 0x77};
  return compute(found.rule, probe) == compute(known.rule, probe) || kind(known) == "crc";
}

bool is_among(const Check& found, const std::vector<Check>& known) {
  return std::ranges::any_of(known, [&](const Check& check) { return is_known(found, check); });
}

// Bytes that are 00 in all images leave open whether a sum covers them.
bool is_in_family(const Model& model, const Check& known) {
  return std::ranges::any_of(model.family, [&](const Match& match) {
    return match.range == whole_range(known) && match.formula.width == width(known) &&
           (width(known) == 8 || match.order == known.order);
  });
}

std::string top_of(const Solution& solution) {
  std::string text;
  for (std::size_t i = 0; i < solution.models.size() && i < 6; ++i) {
    const Model& model = solution.models[i];
    text += fmt::format("{} at {:02X} chance {:.2g} family {} habit bits {:.0f}{}\n",
                        model.check.id, model.check.stored_at, model.chance, model.family.size(),
                        total(model.habits), model.copy ? " copy" : "");
  }
  return text;
}

}  // namespace

TEST_CASE("the known checks of the built-in layouts are found from four images each",
          "[long][count]") {
  Question question;
  for (const std::string& id : built_in_layouts()) {
    const Layout layout = built_in_layout(id);
    question.familiar.insert(question.familiar.end(), layout.checks.begin(), layout.checks.end());
  }
  std::size_t checks = 0;
  for (const std::string& id : built_in_layouts()) {
    const Layout layout = built_in_layout(id);
    for (std::size_t i = 0; i < layout.checks.size(); ++i) {
      const Check& known = layout.checks[i];
      if (has_a_gap(known)) continue;
      for (std::uint32_t start = 1; start <= 2; ++start) {
        Dice dice(900 + start);
        const auto images = composed_images(layout, known, dice);
        const auto solution = solve(images, question);
        INFO(id << ", " << known.id << ", start " << start);
        INFO(top_of(solution));
        REQUIRE_FALSE(solution.models.empty());
        CHECK(is_among(solution.models[0].check, question.familiar));
        const auto at_the_place = std::ranges::find_if(solution.models, [&](const Model& model) {
          return model.check.stored_at == known.stored_at;
        });
        REQUIRE(at_the_place != solution.models.end());
        CHECK(is_among(at_the_place->check, question.familiar));
        CHECK(is_in_family(*at_the_place, known));
        ++checks;
      }
    }
  }
  CHECK(checks >= 40);
}
