#include "deliver/restore_program.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "check/crc.h"
#include "chip/clock.h"
#include "deliver/check_rules.h"
#include "deliver/program.h"

namespace rtcmend {

namespace {

constexpr std::size_t line_width = 79;  // one less than the screen, whose last column wraps
constexpr std::uint8_t no_address = 0xFF;
constexpr std::size_t most_fields = 10;  // so that all of it stays on the screen

/// Lines that the old machine can show: plain ASCII, broken at a blank before the screen's edge.
std::string line(std::string_view text) {
  std::string plain;
  for (const char c : text) plain += c >= ' ' && c <= '~' ? c : '?';
  std::string broken;
  while (plain.size() > line_width) {
    const auto blank = plain.rfind(' ', line_width);
    const bool usable = blank != std::string::npos && plain.find_first_not_of(' ') < blank;
    const std::size_t end = usable ? blank : line_width;
    broken += plain.substr(0, end) + "\r\n";
    plain = "    " + plain.substr(usable ? end + 1 : end);
  }
  return broken + plain + "\r\n";
}

std::string time_in(const Parcel& parcel) {
  std::optional<int> century;
  const auto byte = parcel.century ? parcel.image.at(*parcel.century) : std::nullopt;
  if (byte == 0x19) century = 19;
  if (byte == 0x20) century = 20;
  const auto reading = read_clock(parcel.image, century);
  if (!reading.time) return "none";
  return to_iso(*reading.time).replace(10, 1, " ");
}

std::uint16_t code_of(const Program& program) {
  const std::span bytes(program.bytes());
  const std::size_t first = program.offset("image");
  return Crc(crc_models::ibm_3740)(bytes.subspan(first, program.offset("parcel_code") - first));
}

void fill_order(Program& program, const Addresses& order) {
  std::vector<std::uint8_t> bytes{static_cast<std::uint8_t>(order.size())};
  bytes.insert(bytes.end(), order.begin(), order.end());
  program.fill("order", bytes);
}

/// 1 for each byte whose value the screen must not show.
void fill_hidden(Program& program, const Addresses& hidden) {
  std::vector<std::uint8_t> marks(program.room("hidden"), 0);
  for (const Address at : hidden) marks.at(at) = 1;
  program.fill("hidden", marks);
}

void fill_checks(Program& program, const Parcel& parcel) {
  const auto rules = encode_check_rules(parcel.checks);
  if (rules.size() > program.room("check_rules"))
    refuse("LAYOUT", "its checks are too many for the program on the old machine");
  program.fill("check_rules", rules);
}

/// Which check byte is spoiled, and by which of the rules its value is found.
void fill_spoil(Program& program, const Parcel& parcel, const WritePlan& plan) {
  program.fill_byte("spoil_at",
                    plan.spoil ? static_cast<std::uint8_t>(plan.spoil->at) : no_address);
  if (!plan.spoil) return;
  const auto before = parcel.checks.begin() + static_cast<std::ptrdiff_t>(plan.spoil->check);
  const auto rules = encode_check_rules({parcel.checks.begin(), before});
  program.fill_word("spoil_rule", static_cast<std::uint16_t>(rules.size() - 1));  // without its end
}

void require_reader(const Parcel& parcel) {
  if (parcel.codes && parcel.occasion == Occasion::when_lost)
    refuse_choice("code", "nobody stands by with a phone when lost bytes are restored at a start",
                  "Leave one of the two out");
}

void require_judgement(const Parcel& parcel) {
  if (parcel.occasion == Occasion::when_lost && parcel.checks.empty())
    refuse_choice("when-lost", "the layout has no check, so the chip's loss cannot be told",
                  Advice{{"Name another layout", Act{Act::Kind::choose, "layout", {}}}});
}

}  // namespace

std::string announcement(const Parcel& parcel, const WritePlan& plan) {
  std::string text = line(fmt::format("Image for the clock chip, {} bytes: {}, {}",
                                      plan.image.size(), parcel.layout, parcel.title));
  for (std::size_t i = 0; i < std::min(parcel.fields.size(), most_fields); ++i)
    text += line("  " + parcel.fields[i]);
  text += line("Time in the image: " + time_in(parcel));
  if (other_mode(parcel))
    text += line("A clock that is set counts in " + mode_words(ClockMode{}) + ".");
  const char* why = plan.left_alone.empty() ? "" : " (the image does not know them)";
  text += line(fmt::format("RAM bytes to write: {}; left alone: {}{}",
                           plan.order.size() + plan.century.has_value(), to_prose(plan.left_alone),
                           why));
  return text + line(fmt::format("Check code of the image: {:04X}",
                                 open_code(parcel.image, parcel.hidden)));
}

std::string restore_program(std::string_view name, const Parcel& parcel, const WritePlan& plan) {
  require_reader(parcel);
  require_judgement(parcel);
  Program program(parcel.codes ? std::string(name) + "_codes" : std::string(name));
  program.fill("image", plan.image.bytes());
  fill_order(program, plan.order);
  fill_hidden(program, parcel.hidden);
  fill_checks(program, parcel);
  fill_spoil(program, parcel, plan);
  program.fill_byte("size", static_cast<std::uint8_t>(plan.image.size()));
  program.fill_byte("century", plan.century.value_or(no_address));
  program.fill_byte("clock_policy", static_cast<std::uint8_t>(parcel.clock));
  program.fill_byte("when_lost", parcel.occasion == Occasion::when_lost);
  program.fill_byte("has_time", plan.has_time);
  if (plan.has_time) program.fill("image_time", time_in(parcel));
  program.fill("text", announcement(parcel, plan));
  program.fill_word("parcel_code", code_of(program));
  return {program.bytes().begin(), program.bytes().end()};
}

}  // namespace rtcmend
