// Truths that are tried on everything there is, not on a sample. What must hold is what a person
// who mends a chip takes for granted; no published source.
#include <catch2/catch.hpp>

#include "judge/examine.h"
#include "layout/codec.h"
#include "layout/library.h"
#include "make/amend.h"
#include "make/compose.h"
#include "make/seal.h"

using namespace rtcmend;

namespace {

bool has_firmware(const std::string& id) {
  return !id.starts_with("chip-");
}

Image composed(const Layout& layout) {
  Description description;
  description.clock = DateTime{2031, 5, 14, 9, 30, 0};
  return compose(description, layout);
}

/// Bits of the image that may differ when one field is set: its own, its followers', the checks'.
std::vector<std::uint8_t> may_change(const Layout& layout, const Field& field) {
  std::vector<std::uint8_t> masks(layout.size, 0);
  const auto allow = [&](const Field& one) {
    for (const BitSlice& slice : one.bits) masks[slice.at] |= slice.mask();
    if (one.escape) masks[one.escape->at] = 0xFF;
  };
  allow(field);
  for (const Field& follower : layout.fields)
    if (follower.follows && std::ranges::count(follower.follows->of, field.id) > 0) allow(follower);
  for (const Check& check : layout.checks)
    for (const Address at : stored_addresses(check)) masks[at] = 0xFF;
  return masks;
}

/// What a user may give the field: every name, yes and no, every number from the least to the most.
std::vector<Value> all_values(const Field& field) {
  std::vector<Value> values;
  if (field.meaning == Meaning::flag) return {true, false};
  if (field.meaning == Meaning::choice) {
    for (const Choice& choice : field.choices) values.emplace_back(choice.name);
    return values;
  }
  if (field.meaning != Meaning::number && field.meaning != Meaning::bcd) return {};
  unsigned width = 0;
  for (const BitSlice& slice : field.bits) width += slice.width();
  const std::int64_t codes = field.escape ? field.escape->most + 1 : std::int64_t{1} << width;
  // Wide fields are met in many layouts; a prime step and both ends leave none of their bits out.
  const std::int64_t step = codes > 256 ? 251 : 1;
  for (std::int64_t code = 0; code < codes + step - 1; code += step) {
    const Value value = std::min(code, codes - 1) * field.scale + field.offset;
    if (illegal_because(field, value).empty()) values.push_back(value);
  }
  return values;
}

bool changes_only(const Image& before, const Image& after, const std::vector<std::uint8_t>& masks) {
  for (std::size_t at = 0; at < before.size(); ++at) {
    const auto address = static_cast<Address>(at);
    if (((before[address] ^ after[address]) & ~masks[at] & 0xFF) != 0) return false;
  }
  return true;
}

bool user_may_set(const Field& field) {
  return !field.read_only && field.meaning != Meaning::concealed && !field.follows;
}

/// The century belongs to the clock, so it is set together with it.
bool is_clocks(const Field& field) {
  return field.id == "century";
}

bool every_check_holds(const Layout& layout, const Image& image) {
  for (const CheckResult& result : evaluate_all(layout, image))
    if (!result.ok()) return false;
  return true;
}

/// A composed image in which every stretch that counts only under a condition does count.
Image with_everything_counting(const Layout& layout) {
  Image image = composed(layout);
  for (const Check& check : layout.checks)
    for (const Covered& covered : check.over)
      if (covered.when)
        image.set(covered.when->at,
                  static_cast<std::uint8_t>((image[covered.when->at] & ~covered.when->mask) |
                                            covered.when->value));
  return seal(image, layout);
}

}  // namespace

TEST_CASE("every bit of every covered or stored byte is under watch, in every layout") {
  for (const std::string& id : built_in_layouts()) {
    const Layout layout = built_in_layout(id);
    if (layout.checks.empty()) continue;
    const Image sound = with_everything_counting(layout);
    REQUIRE(every_check_holds(layout, sound));
    for (const Check& check : layout.checks) {
      Addresses bytes = covered_addresses(check);
      for (const Address at : stored_addresses(check)) bytes.push_back(at);
      for (const Address at : bytes) {
        for (int bit = 0; bit < 8; ++bit) {
          Image flipped = sound;
          flipped.set(at, static_cast<std::uint8_t>(sound[at] ^ (1 << bit)));
          INFO(id << " byte " << int{at} << " bit " << bit);
          CHECK_FALSE(examine(flipped, layout).sound);
        }
      }
    }
  }
}

TEST_CASE("every value of every field goes in, comes out, and disturbs nothing") {
  std::size_t tried = 0;
  for (const std::string& id : built_in_layouts()) {
    if (!has_firmware(id)) continue;
    const Layout layout = built_in_layout(id);
    const Image sound = composed(layout);
    for (const Field& field : layout.fields) {
      if (!user_may_set(field) || is_clocks(field)) continue;
      const auto masks = may_change(layout, field);
      for (const Value& value : all_values(field)) {
        INFO(id << " " << field.id << "=" << to_text(field, value));
        const Image amended = amend(sound, layout, {{field.id, value}});
        // The CRC class has few defaults: without its memory such an image is blank.
        if (id.starts_with("crc") && field.id == "base_memory_kib" &&
            value == Value(std::int64_t{0}))
          continue;
        const FieldReading reading = read_field(field, amended);
        if (!(reading.value == value)) CHECK(reading.value == value);
        if (!changes_only(sound, amended, masks)) CHECK(changes_only(sound, amended, masks));
        if (!every_check_holds(layout, amended)) CHECK(every_check_holds(layout, amended));
        ++tried;
      }
    }
  }
  CHECK(tried > 20000);
}

TEST_CASE("every value of a wide field goes in and comes out") {
  for (const char* id : {"at", "crc+slots-19", "balance"}) {
    const Layout layout = built_in_layout(id);
    const Image sound = composed(layout);
    for (const Field& field : layout.fields) {
      if (!user_may_set(field) || is_clocks(field) || field.meaning != Meaning::number) continue;
      Image image = sound;
      for (std::int64_t number = 0; number <= 65535; ++number) {
        const Value value = number * field.scale + field.offset;
        if (!illegal_because(field, value).empty()) continue;
        write_field(field, value, image);
        if (!(read_field(field, image).value == value)) {
          INFO(id << " " << field.id << "=" << number);
          CHECK(read_field(field, image).value == value);
        }
      }
      CHECK(changes_only(sound, image, may_change(layout, field)));
    }
  }
}
