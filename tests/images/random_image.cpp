#include "images/random_image.h"

#include <algorithm>
#include <functional>

#include "chip/registers.h"
#include "judge/examine.h"
#include "judge/relations.h"
#include "layout/codec.h"
#include "layout/library.h"

namespace rtcmend {

namespace {

/// How an image's values are drawn.
enum class Mood { modest, even };

std::uint8_t any_byte(Dice& dice) {
  return static_cast<std::uint8_t>(roll(dice, 256));
}

std::string random_hex(std::size_t bytes, Mood mood, Dice& dice) {
  constexpr const char* digits = "0123456789ABCDEF";
  if (mood == Mood::modest && once_in(dice, 2)) return std::string(bytes * 2, '0');
  std::string text;
  for (std::size_t i = 0; i < bytes * 2; ++i) text += digits[roll(dice, 16)];
  return text;
}

std::string random_text(std::size_t length, Dice& dice) {
  std::string text;
  for (std::size_t i = 0; i < length; ++i) text += static_cast<char>('A' + roll(dice, 26));
  return text;
}

std::int64_t random_number(const Field& field, Mood mood, Dice& dice) {
  constexpr unsigned memory_step = 64;
  if (field.escape && once_in(dice, 2))
    return field.escape->least +
           roll(dice, std::min(mood == Mood::modest ? 32U : 256U,
                               field.escape->most - field.escape->least + 1U));
  if (field.least && field.most)
    return *field.least + roll(dice, static_cast<unsigned>(*field.most - *field.least + 1));
  if (mood == Mood::modest && field.unit == "KiB") return memory_step * roll(dice, 256);
  const unsigned codes = 1U << std::min(bit_count(field), 31U);
  return static_cast<std::int64_t>(roll(dice, codes)) * field.scale + field.offset;
}

std::int64_t random_bcd(const Field& field, Dice& dice) {
  const std::int64_t least = field.least.value_or(0), most = field.most.value_or(99);
  return least + roll(dice, static_cast<unsigned>(most - least + 1));
}

Value random_value(const Field& field, Mood mood, Dice& dice) {
  switch (field.meaning) {
    case Meaning::flag:
      return once_in(dice, mood == Mood::modest && field.is_volatile ? 16 : 2);
    case Meaning::choice:
      return field.choices[roll(dice, static_cast<unsigned>(field.choices.size()))].name;
    case Meaning::bytes:
      return random_hex(field.bits.size(), mood, dice);
    case Meaning::text:
      return random_text(field.bits.size(), dice);
    case Meaning::bcd:
      return random_bcd(field, dice);
    default:
      return random_number(field, mood, dice);
  }
}

Value legal_value(const Field& field, Mood mood, Dice& dice) {
  for (;;) {
    const Value value = random_value(field, mood, dice);
    if (illegal_because(field, value).empty()) return value;
  }
}

void fill_concealed(const Field& field, Dice& dice, Image& image) {
  const bool empty = once_in(dice, 2);
  for (const BitSlice& slice : field.bits) {
    const auto beside = static_cast<std::uint8_t>(image[slice.at] & ~slice.mask());
    const auto own = static_cast<std::uint8_t>(empty ? 0 : any_byte(dice) & slice.mask());
    image.set(slice.at, beside | own);
  }
}

void fill_field(Field field, Mood mood, Dice& dice, Image& image) {
  field.read_only = false;
  if (field.meaning == Meaning::concealed)
    fill_concealed(field, dice, image);
  else
    write_field(field, legal_value(field, mood, dice), image);
}

void fill_unclaimed(const Layout& layout, Dice& dice, Image& image) {
  const unsigned density = roll(dice, 3);  // none, one in four, all
  for (std::size_t i = Image::ram_start; i < image.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (!layout.fields_at(at).empty() || !layout.checks_at(at).empty()) continue;
    if (density == 2 || (density == 1 && once_in(dice, 4))) image.set(at, any_byte(dice));
  }
}

void settle_followers(const Layout& layout, Image& image) {
  for (Field field : layout.fields) {
    const auto expected = expected_value(field, layout, image);
    if (!expected || !read_field(field, image).in_use) continue;
    field.read_only = false;
    write_field(field, *expected, image);
  }
}

DateTime random_time(Dice& dice) {
  const int year = first_year + static_cast<int>(roll(dice, last_year - first_year + 1));
  const int month = 1 + static_cast<int>(roll(dice, 12));
  const int day =
      1 + static_cast<int>(roll(dice, static_cast<unsigned>(days_in_month(year, month))));
  return {year,
          month,
          day,
          static_cast<int>(roll(dice, 24)),
          static_cast<int>(roll(dice, 60)),
          static_cast<int>(roll(dice, 60))};
}

void fill_alarms(const ClockMode& mode, Dice& dice, Image& image) {
  const unsigned kind = roll(dice, 3);  // empty, any time, never set
  for (const Address at : {reg::seconds_alarm, reg::minutes_alarm, reg::hours_alarm})
    image.set(at, kind == 0 ? 0x00 : 0xFF);
  if (kind != 1) return;
  Image other(image.size());
  write_clock(random_time(dice), mode, other);
  for (const Address at : {reg::seconds, reg::minutes, reg::hours})
    image.set(static_cast<Address>(at + 1), other[at]);
}

void fill_clock(const Layout& layout, Dice& dice, Image& image) {
  const ClockMode mode{once_in(dice, 16), !once_in(dice, 16)};
  const unsigned b = (mode.binary ? 0x04U : 0U) | (mode.hours_24 ? 0x02U : 0U);
  const DateTime time = random_time(dice);
  image.set(reg::a, usual_a);
  image.set(reg::b, static_cast<std::uint8_t>(b));
  image.set(reg::c, once_in(dice, 8) ? 0x50 : healthy_c);
  image.set(reg::d, healthy_d);
  write_clock(time, mode, image);
  fill_alarms(mode, dice, image);
  if (const Field* century = layout.field("century"))
    write_field(*century, std::int64_t{time.year / 100}, image);
}

Image drawn(const Layout& layout, Dice& dice) {
  const Mood mood = once_in(dice, 2) ? Mood::modest : Mood::even;
  Image image(layout.size);
  for (std::size_t at = 0; at < layout.size; ++at) image.set(static_cast<Address>(at), 0);
  fill_unclaimed(layout, dice, image);
  for (const Field& field : layout.fields) fill_field(field, mood, dice, image);
  settle_followers(layout, image);
  fill_clock(layout, dice, image);
  for (const std::size_t index : layout.sealing) seal_one(layout.checks[index], image);
  return image;
}

/// Nothing is wrong with it; under a layout without checks nothing proves it, either.
bool is_faultless(const Examination& examination) {
  return std::none_of(examination.findings.begin(), examination.findings.end(),
                      std::mem_fn(&Finding::is_fault));
}

}  // namespace

unsigned roll(Dice& dice, unsigned below) {
  return static_cast<unsigned>(dice() % below);
}

bool once_in(Dice& dice, unsigned times) {
  return roll(dice, times) == 0;
}

Image random_image(const Layout& layout, Dice& dice) {
  for (;;) {
    Image image = drawn(layout, dice);
    if (is_faultless(examine(image, layout))) return image;
  }
}

Image random_noise(std::size_t size, Dice& dice) {
  Image image(size);
  for (std::size_t at = 0; at < size; ++at) image.set(static_cast<Address>(at), any_byte(dice));
  return image;
}

const std::vector<Layout>& all_layouts() {
  static const std::vector<Layout> layouts = [] {
    std::vector<Layout> loaded;
    for (const std::string& id : built_in_layouts()) loaded.push_back(built_in_layout(id));
    return loaded;
  }();
  return layouts;
}

}  // namespace rtcmend
