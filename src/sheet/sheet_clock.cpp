// Clock and registers of the bench sheet.
#include <fmt/format.h>

#include "base/text.h"
#include "chip/registers.h"
#include "render/register_words.h"
#include "render/words.h"
#include "sheet/sheet_parts.h"

namespace rtcmend {

namespace {

Html pair(const std::string& name, const std::string& value) {
  return element("div", element("dt", name) + element("dd", value));
}

std::string mode_words(const ClockReading& clock) {
  if (!clock.mode) return "unknown, because register B is";
  return fmt::format("{}, {} hours", clock.mode->binary ? "binary" : "BCD",
                     clock.mode->hours_24 ? 24 : 12);
}

/// The bits of a register that are set, by name and meaning.
Html set_bits(Address at, std::uint8_t byte) {
  std::vector<Html> pieces;
  for (const NamedBits& bits : register_bits()) {
    if (bits.at != at || value_of(bits, byte) == 0) continue;
    const std::string name = bits.high == bits.low
                                 ? std::string(bits.name)
                                 : fmt::format("{} = {}", bits.name, value_of(bits, byte));
    pieces.push_back(element("b", name) + own_markup(" ") + words(bits.label));
  }
  if (pieces.empty()) return words("nothing set");
  return joined(pieces, own_markup("; "));
}

Html register_row(const Image& image, Address at) {
  const auto byte = image.at(at);
  const char letter = static_cast<char>('A' + (at - reg::a));
  Html row = element("th", {{"scope", "row"}}, fmt::format("{}", letter));
  row += element("td", {{"class", "bytes"}}, hex2(at));
  row += element("td", {{"class", "bytes"}}, byte ? hex2(*byte) : "??");
  row += element("td", byte ? set_bits(at, *byte) : words("unknown"));
  return element("tr", row);
}

Html registers_table(const Image& image) {
  Html head;
  for (const char* title : {"Register", "At", "Holds", "Bits that are set"})
    head += element("th", {{"scope", "col"}}, title);
  Html rows;
  for (const Address at : {reg::a, reg::b, reg::c, reg::d}) rows += register_row(image, at);
  return element("table", element("thead", element("tr", head)) + element("tbody", rows));
}

}  // namespace

Html clock_part(const ClockReading& clock) {
  const Html facts = pair("Date and time", clock_words(clock)) +
                     pair("Kept in", mode_words(clock)) + pair("Alarm", describe_alarm(clock));
  return element("dl", {{"class", "facts"}}, facts);
}

Html registers_part(const Image& image, const Sources& sources) {
  return registers_table(image) +
         element("p", {{"class", "small"}},
                 words("What these bytes and bits mean: ") + source_mark(sources, chip_source));
}

}  // namespace rtcmend
