#include "terminal/show.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "chip/registers.h"
#include "render/field_groups.h"
#include "render/memory_plan.h"
#include "render/register_words.h"
#include "render/words.h"
#include "terminal/columns.h"
#include "terminal/findings.h"
#include "terminal/heading.h"

namespace rtcmend {

namespace {

constexpr std::size_t label_width = 30, value_column = 42, id_column = 55;

std::string clock_lines(const ClockReading& clock) {
  std::string text = heading_line("clock", clock_words(clock));
  if (clock.mode)
    text +=
        heading_line("kept in", fmt::format("{}, {} hours", clock.mode->binary ? "binary" : "BCD",
                                            clock.mode->hours_24 ? 24 : 12));
  return text + heading_line("alarm", describe_alarm(clock));
}

/// The bits of one register that are set, by their data-sheet names.
std::string set_bits(Address at, std::uint8_t byte) {
  std::vector<std::string> names;
  for (const NamedBits& bits : register_bits()) {
    if (bits.at != at || value_of(bits, byte) == 0) continue;
    names.push_back(bits.high == bits.low
                        ? std::string(bits.name)
                        : fmt::format("{} = {}", bits.name, value_of(bits, byte)));
  }
  return names.empty() ? "nothing set" : join(names, ", ");
}

std::string every_bit(Address at, std::uint8_t byte) {
  std::string text;
  for (const NamedBits& bits : register_bits()) {
    if (bits.at != at) continue;
    text += fmt::format("             {:<4} {:<6} {:>2}  {}\n", bit_numbers(bits), bits.name,
                        value_of(bits, byte), bits.label);
  }
  return text;
}

std::string rate_lines(std::uint8_t byte) {
  const unsigned rate = decode_a(byte).rate;
  return fmt::format("             rate {}: interrupt {}, square wave {}\n", rate,
                     periodic_interrupt(rate), square_wave(rate));
}

std::string registers_text(const Image& image, RegisterDetail detail, const Ink& ink) {
  std::string text = ink(Tone::strong, "Registers") + "\n";
  for (const Address at : {reg::a, reg::b, reg::c, reg::d}) {
    const auto byte = image.at(at);
    if (!byte) {
      text += fmt::format("  {:<8} ??  {}\n", hex2(at), ink(Tone::quiet, "unknown"));
      continue;
    }
    text += fmt::format("  {:<8} {}  {}\n", hex2(at), hex2(*byte), set_bits(at, *byte));
    if (detail == RegisterDetail::a_line_each) continue;
    text += every_bit(at, *byte);
    if (at == reg::a) text += rate_lines(*byte);
  }
  return text;
}

/// Too long a value for one line is cut where the line ends.
std::string value_lines(const std::string& value) {
  constexpr std::size_t longest = page_width - value_column;
  std::string text;
  for (std::size_t at = 0; at < value.size(); at += longest) {
    if (at > 0) text += "\n" + std::string(value_column, ' ');
    text += value.substr(at, longest);
  }
  return text;
}

std::string with_id(const std::string& value, const std::string& id, const Ink& ink) {
  const std::size_t column = std::max(id_column, value_column + value.size() + 2);
  const std::string quiet_id = ink(Tone::quiet, id);
  if (column + id.size() > page_width)
    return value_lines(value) + "\n" + std::string(id_column, ' ') + quiet_id;
  return value + std::string(column - value_column - value.size(), ' ') + quiet_id;
}

std::string field_line(const FieldReading& reading, const Ink& ink) {
  const Field& field = *reading.field;
  const bool odd = reading.known && reading.in_use && !reading.legal;
  std::string label = dotted(printable(field.label), label_width);
  if (label.size() > label_width) label += "\n" + std::string(value_column - 1, ' ');
  const std::string value = reading.in_use ? printable(reading.text) : "not in use";
  return fmt::format("{} {:<8} {:<{}} {}\n", odd ? ink(Tone::bad, "!") : " ",
                     narrow(addresses(field)), label, label_width,
                     with_id(value, printable(field.id), ink));
}

std::string group_text(const FieldGroup& group, const Ink& ink) {
  std::string text = ink(Tone::strong, printable(group_title(group.name))) + "\n";
  for (const FieldReading& reading : group.shown) text += field_line(reading, ink);
  std::vector<std::string> all_no;
  for (const FieldReading& reading : group.all_no) all_no.push_back(printable(reading.field->id));
  constexpr std::size_t column = 11;
  if (!all_no.empty()) text += "  all no   " + hanging(join(all_no, ", "), column) + "\n";
  return text;
}

enum class Place { first, after };

std::string fields_text(const std::vector<FieldGroup>& groups, Place place, const Ink& ink) {
  std::string text;
  for (const FieldGroup& group : groups)
    if (comes_first(group) == (place == Place::first)) text += group_text(group, ink);
  return text;
}

}  // namespace

std::string show_text(const Card& card, RegisterDetail detail, const Ink& ink) {
  const Examination& examination = card.examination;
  const std::vector<FieldGroup> groups = field_groups(examination.fields);
  return heading(card, ink) + clock_lines(examination.clock) + "\n" +
         fields_text(groups, Place::first, ink) + registers_text(card.dump.image, detail, ink) +
         fields_text(groups, Place::after, ink) + checks_text(examination.checks, ink) +
         findings_text(examination.findings, ink);
}

std::string verify_text(const Card& card, const Ink& ink) {
  return heading(card, ink) + "\n" + checks_text(card.examination.checks, ink) +
         findings_text(card.examination.findings, ink);
}

}  // namespace rtcmend
