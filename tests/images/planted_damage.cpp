#include "images/planted_damage.h"

#include <algorithm>
#include <stdexcept>

#include "layout/codec.h"

namespace rtcmend {

namespace {

struct Share {
  std::string_view kind;
  unsigned percent;
};

// By judgement: what restorers bring, and what is wrong with it.
constexpr std::pair<Arrival, unsigned> arrivals[] = {{Arrival::read_once, 40},
                                                     {Arrival::typed_with_text, 15},
                                                     {Arrival::typed, 25},
                                                     {Arrival::read_twice, 10},
                                                     {Arrival::read_thrice, 10}};
constexpr Share when_read[] = {{"one bit", 50},    {"one byte", 20},    {"neighbours", 3},
                               {"not sealed", 11}, {"never sealed", 4}, {"several bytes", 12}};
constexpr Share when_typed[] = {{"look-alike digit", 31},
                                {"other digit", 11},
                                {"digits exchanged", 9},
                                {"neighbours", 8},
                                {"row slipped", 4},
                                {"two slips", 13},
                                {"one bit", 6},
                                {"one byte", 4},
                                {"byte written twice", 3},
                                {"digit written twice", 2},
                                {"rows exchanged", 1},
                                {"not sealed", 3},
                                {"never sealed", 1},
                                {"several bytes", 4}};
constexpr Share when_read_twice[] = {{"one wavering bit", 80}, {"two wavering bits", 20}};
constexpr Share when_read_thrice[] = {{"noise of 1 in 200", 100}};

constexpr Share slips_of_two[] = {
    {"look-alike digit", 55}, {"other digit", 19}, {"digits exchanged", 13}, {"neighbours", 13}};

template <typename Table>
double share_in(const Table& table, std::string_view kind) {
  for (const Share& share : table)
    if (share.kind == kind) return share.percent / 100.0;
  return 0;
}

template <typename Table>
std::string_view drawn_kind(const Table& table, Dice& dice) {
  unsigned left = roll(dice, 100);
  for (const Share& share : table) {
    if (left < share.percent) return share.kind;
    left -= share.percent;
  }
  throw std::logic_error("shares do not make 100");
}

bool some_check_fails(const Image& image, const Layout& layout) {
  return std::any_of(layout.checks.begin(), layout.checks.end(), [&](const Check& check) {
    const CheckResult result = evaluate(check, image);
    return result.counts && !result.blank && !result.ok();
  });
}

Address pick(const Addresses& among, Dice& dice) {
  return among[roll(dice, static_cast<unsigned>(among.size()))];
}

std::uint8_t with_digit_of(std::uint8_t byte, bool high, unsigned digit) {
  return static_cast<std::uint8_t>(high ? (byte & 0x0FU) | digit << 4 : (byte & 0xF0U) | digit);
}

// What each digit is taken for, 0 to F; from memory of reading hex off screens and photographs.
constexpr std::string_view taken_for[] = {"8D6",  "7", "", "8", "9", "6", "580", "1",
                                          "0B36", "4", "", "8", "",  "0", "F",   "E"};

void flip_a_bit(Image& image, Address at, Dice& dice) {
  image.set(at, static_cast<std::uint8_t>(image[at] ^ (1U << roll(dice, 8))));
}

void look_alike_digit(Image& image, const Addresses& where, Dice& dice) {
  for (;;) {
    const Address at = pick(where, dice);
    const bool high = once_in(dice, 2);
    const std::string_view others = taken_for[high ? image[at] >> 4 : image[at] & 0xF];
    if (others.empty()) continue;
    const char digit = others[roll(dice, static_cast<unsigned>(others.size()))];
    image.set(at,
              with_digit_of(image[at], high,
                            static_cast<unsigned>(digit <= '9' ? digit - '0' : digit - 'A' + 10)));
    return;
  }
}

/// Of two addresses side by side, both guarded.
Address pick_left(const Addresses& where, Dice& dice) {
  for (;;) {
    const Address at = pick(where, dice);
    if (std::find(where.begin(), where.end(), at + 1) != where.end()) return at;
  }
}

void swap_neighbours(Image& image, const Addresses& where, Dice& dice) {
  const Address at = pick_left(where, dice);
  const std::uint8_t left = image[at];
  image.set(at, image[static_cast<Address>(at + 1)]);
  image.set(static_cast<Address>(at + 1), left);
}

void slip_a_row(Image& image, const Addresses& where, Dice& dice) {
  const Address at = pick(where, dice);
  const int from = at + (once_in(dice, 2) ? 16 : -16);
  if (from < 0 || from >= static_cast<int>(image.size())) return;
  image.set(at, image[static_cast<Address>(from)]);
}

/// One cell of a row of 16 bytes written twice and another left out; a cell is a byte, or a digit.
void write_twice(Image& image, unsigned cells_a_byte, Dice& dice) {
  const unsigned start = 16 * roll(dice, static_cast<unsigned>(image.size() / 16));
  std::string digits;
  for (unsigned i = 0; i < 16; ++i) {
    const std::uint8_t byte = image[static_cast<Address>(start + i)];
    digits += static_cast<char>(byte >> 4);
    digits += static_cast<char>(byte & 0xF);
  }
  const std::size_t length = 2 / cells_a_byte;
  const std::size_t count = digits.size() / length;
  const std::size_t twice = roll(dice, static_cast<unsigned>(count));
  std::size_t lost = twice;
  while (lost == twice || lost + 1 == twice || lost == twice + 1)
    lost = roll(dice, static_cast<unsigned>(count));
  const std::string copy = digits.substr(twice * length, length);
  if (lost > twice) {
    digits.erase(lost * length, length);
    digits.insert(twice * length, copy);
  } else {
    digits.insert(twice * length, copy);
    digits.erase(lost * length, length);
  }
  for (unsigned i = 0; i < 16; ++i)
    image.set(static_cast<Address>(start + i),
              static_cast<std::uint8_t>(digits[2 * i] << 4 | digits[2 * i + 1]));
}

void exchange_rows(Image& image, Dice& dice) {
  const auto rows = static_cast<unsigned>(image.size() / 16);
  const unsigned first = 16 * roll(dice, rows), second = 16 * roll(dice, rows);
  for (unsigned i = 0; i < 16; ++i) {
    const auto a = static_cast<Address>(first + i), b = static_cast<Address>(second + i);
    const std::uint8_t byte = image[a];
    image.set(a, image[b]);
    image.set(b, byte);
  }
}

/// A slip of hand or eye, as the table of two slips has them.
void one_slip(Image& image, const Addresses& where, Dice& dice);

void damage_by(std::string_view kind, Image& image, const Addresses& where, Dice& dice) {
  const Address at = pick(where, dice);
  if (kind == "one bit") {
    flip_a_bit(image, at, dice);
  } else if (kind == "one byte") {
    image.set(at, static_cast<std::uint8_t>(roll(dice, 256)));
  } else if (kind == "neighbours") {
    swap_neighbours(image, where, dice);
  } else if (kind == "look-alike digit") {
    look_alike_digit(image, where, dice);
  } else if (kind == "other digit") {
    image.set(at, with_digit_of(image[at], once_in(dice, 2), roll(dice, 16)));
  } else if (kind == "digits exchanged") {
    image.set(at, static_cast<std::uint8_t>(image[at] << 4 | image[at] >> 4));
  } else if (kind == "row slipped") {
    slip_a_row(image, where, dice);
  } else if (kind == "byte written twice") {
    write_twice(image, 1, dice);
  } else if (kind == "digit written twice") {
    write_twice(image, 2, dice);
  } else if (kind == "rows exchanged") {
    exchange_rows(image, dice);
  } else if (kind == "two slips") {
    one_slip(image, where, dice);
    one_slip(image, where, dice);
  } else if (kind == "several bytes") {
    for (unsigned left = 2 + roll(dice, 5); left > 0; --left)
      image.set(pick(where, dice), static_cast<std::uint8_t>(roll(dice, 256)));
  } else {
    throw std::logic_error("no such damage");
  }
}

void one_slip(Image& image, const Addresses& where, Dice& dice) {
  damage_by(drawn_kind(slips_of_two, dice), image, where, dice);
}

/// A covered setting with another legal value, and nothing sealed after it.
void change_a_setting(Image& image, const Layout& layout, Dice& dice) {
  for (;;) {
    Field field = layout.fields[roll(dice, static_cast<unsigned>(layout.fields.size()))];
    field.read_only = false;
    Value value;
    if (field.meaning == Meaning::flag)
      value = once_in(dice, 2);
    else if (field.meaning == Meaning::choice)
      value = field.choices[roll(dice, static_cast<unsigned>(field.choices.size()))].name;
    else if (field.meaning == Meaning::number && bit_count(field) <= 8)
      value = static_cast<std::int64_t>(roll(dice, 1U << bit_count(field))) * field.scale +
              field.offset;
    else if (field.meaning == Meaning::number && field.unit == "KiB")
      value = static_cast<std::int64_t>(64 * roll(dice, 256));
    else
      continue;
    if (!illegal_because(field, value).empty() || !read_value(field, image).in_use) continue;
    write_field(field, value, image);
    return;
  }
}

void spoil_checks(Image& image, const Layout& layout, Dice& dice) {
  const unsigned kind = roll(dice, 4);  // 00, FF, anything twice as often
  for (const Check& check : layout.checks)
    for (const Address at : stored_addresses(check))
      image.set(at, static_cast<std::uint8_t>(kind == 0   ? 0x00
                                              : kind == 1 ? 0xFF
                                                          : roll(dice, 256)));
}

Image sealed_whole(Image image, const Layout& layout) {
  for (const std::size_t index : layout.sealing) seal_one(layout.checks[index], image);
  return image;
}

void add_noise(Image& image, const Addresses& where, Dice& dice) {
  for (const Address at : where)
    for (unsigned bit = 0; bit < 8; ++bit)
      if (once_in(dice, 200)) image.set(at, static_cast<std::uint8_t>(image[at] ^ (1U << bit)));
}

/// The dumps of a chip that is read oftener than once.
void read_again(Plant& plant, const Addresses& where, Dice& dice) {
  if (plant.arrival == Arrival::read_thrice) {
    add_noise(plant.dump, where, dice);
    for (int i = 0; i < 2; ++i) {
      plant.again.push_back(plant.right);
      add_noise(plant.again.back(), where, dice);
    }
    return;
  }
  Image other = plant.right;
  flip_a_bit(plant.dump, pick(where, dice), dice);
  if (plant.kind == "two wavering bits")
    flip_a_bit(once_in(dice, 2) ? plant.dump : other, pick(where, dice), dice);
  plant.again = {other};
}

bool touches_passwords(const Image& damaged, const Image& sound, const Layout& layout) {
  for (std::size_t i = 0; i < sound.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (layout.is_private(at) && damaged[at] != sound[at]) return true;
  }
  return false;
}

Plant try_to_plant(Arrival arrival, std::string_view kind, const Layout& layout, Dice& dice) {
  const Image sound = random_image(layout, dice);
  const Addresses where = guarded(layout);
  Plant plant{kind, arrival, sound, sound};
  if (arrival == Arrival::read_twice || arrival == Arrival::read_thrice) {
    read_again(plant, where, dice);
  } else if (kind == "not sealed") {
    change_a_setting(plant.dump, layout, dice);
    plant.right = sealed_whole(plant.dump, layout);
  } else if (kind == "never sealed") {
    spoil_checks(plant.dump, layout, dice);
  } else {
    do {
      plant.dump = sound;
      damage_by(kind, plant.dump, where, dice);
    } while (touches_passwords(plant.dump, sound, layout));
  }
  plant.beyond_repair = kind == "several bytes";
  if (arrival == Arrival::typed_with_text)
    plant.text = text_of(kind == "not sealed" || kind == "never sealed" ? plant.dump : sound);
  return plant;
}

}  // namespace

Plant plant_of(Arrival arrival, std::string_view kind, const Layout& layout, Dice& dice) {
  for (;;) {
    Plant plant = try_to_plant(arrival, kind, layout, dice);
    if (some_check_fails(plant.dump, layout)) return plant;
  }
}

namespace {

/// An arrival and a kind of damage by their shares.
std::pair<Arrival, std::string_view> drawn_mishap(Dice& dice) {
  unsigned left = roll(dice, 100);
  for (const auto& [arrival, percent] : arrivals) {
    if (left >= percent) {
      left -= percent;
      continue;
    }
    switch (arrival) {
      case Arrival::read_once:
        return {arrival, drawn_kind(when_read, dice)};
      case Arrival::typed:
      case Arrival::typed_with_text:
        return {arrival, drawn_kind(when_typed, dice)};
      case Arrival::read_twice:
        return {arrival, drawn_kind(when_read_twice, dice)};
      case Arrival::read_thrice:
        return {arrival, drawn_kind(when_read_thrice, dice)};
    }
  }
  throw std::logic_error("arrivals do not make 100");
}

}  // namespace

double share_of_kind(Arrival arrival, std::string_view kind) {
  switch (arrival) {
    case Arrival::read_once:
      return share_in(when_read, kind);
    case Arrival::typed:
    case Arrival::typed_with_text:
      return share_in(when_typed, kind);
    case Arrival::read_twice:
      return share_in(when_read_twice, kind);
    case Arrival::read_thrice:
      return share_in(when_read_thrice, kind);
  }
  throw std::logic_error("no such arrival");
}

double share_of_slip(std::string_view kind) {
  return share_in(slips_of_two, kind);
}

std::string_view digits_taken_for(unsigned digit) {
  return taken_for[digit];
}

/// The bytes that a check of the layout covers or stores, but for those of passwords, about which
/// nothing is ever guessed.
Addresses guarded(const Layout& layout) {
  Addresses all;
  for (std::size_t i = 0; i < layout.size; ++i) {
    const auto at = static_cast<Address>(i);
    if (layout.is_private(at)) continue;
    if (!layout.checks_over(at).empty() || !layout.checks_at(at).empty()) all.push_back(at);
  }
  return all;
}

std::string text_of(const Image& image) {
  std::string text;
  for (std::size_t i = 0; i < image.size(); ++i) {
    const std::uint8_t byte = image[static_cast<Address>(i)];
    text += byte >= 0x20 && byte < 0x7F ? static_cast<char>(byte) : '.';
  }
  return text;
}

Plant any_plant(const Layout& layout, Dice& dice) {
  // What no check notices is drawn anew, kind and all: a sum never sees two neighbours exchanged.
  for (;;) {
    const auto [arrival, kind] = drawn_mishap(dice);
    Plant plant = try_to_plant(arrival, kind, layout, dice);
    if (some_check_fails(plant.dump, layout)) return plant;
  }
}

}  // namespace rtcmend
