#include <algorithm>
#include <fmt/format.h>
#include <variant>

#include "base/text.h"
#include "chip/registers.h"
#include "deliver/basic_data.h"
#include "deliver/basic_lines.h"
#include "deliver/carriers.h"
#include "deliver/keystrokes.h"

namespace rtcmend {

namespace {

constexpr int first_data_line = 1000;
constexpr std::size_t row_size = 16;
// DATA lines of addresses: bytes that are written last, and those of a password.
constexpr Address check_bytes_row = 0xFF, hidden_row = 0xFE;

using Row = std::vector<std::optional<std::uint8_t>>;

bool writes(const WritePlan& plan, Address at) {
  return at == plan.century ||
         std::find(plan.order.begin(), plan.order.end(), at) != plan.order.end();
}

/// What is not written is unknown to the listing.
Row row_at(const WritePlan& plan, Address first) {
  Row row;
  for (std::size_t i = 0; i < row_size; ++i) {
    const auto at = static_cast<Address>(first + i);
    const bool known = at <= reg::b || writes(plan, at);
    row.push_back(known ? std::optional(plan.image[at]) : std::nullopt);
  }
  return row;
}

Row written_last(const WritePlan& plan, const std::vector<Check>& checks) {
  Row last;
  for (const Check& check : checks)
    for (const Address at : stored_addresses(check))
      if (writes(plan, at)) last.emplace_back(at);
  return last;
}

Row hidden_from(const Parcel& parcel, std::size_t first) {
  const std::size_t end = std::min(first + row_size, parcel.hidden.size());
  return {parcel.hidden.begin() + static_cast<std::ptrdiff_t>(first),
          parcel.hidden.begin() + static_cast<std::ptrdiff_t>(end)};
}

std::vector<std::string> data_lines(const Parcel& parcel, const WritePlan& plan) {
  std::vector<std::string> lines;
  const auto add = [&](Address first, const Row& row) {
    lines.push_back(data_line(first_data_line + 10 * static_cast<int>(lines.size()), first, row));
  };
  for (std::size_t first = 0; first < plan.image.size(); first += row_size)
    add(static_cast<Address>(first), row_at(plan, static_cast<Address>(first)));
  const Row last = written_last(plan, parcel.checks);
  if (!last.empty()) add(check_bytes_row, last);
  for (std::size_t i = 0; i < parcel.hidden.size(); i += row_size)
    add(hidden_row, hidden_from(parcel, i));
  return lines;
}

/// How the time is asked for and written down in the mode of register B (DS12885).
std::string asking(const WritePlan& plan) {
  const RegisterB mode = decode_b(plan.image[reg::b]);
  const std::string half_days =
      mode.hours_24 ? ""
                    : "U = 0: IF H > 11 THEN U = 128: H = H - 12\n592 IF H = 0 THEN H = 12\n593 ";
  const std::string century =
      plan.century ? fmt::format("Q = Y \\ 100: V({}) = (Q \\ 10) * 16 + Q MOD 10: ", *plan.century)
                   : "";
  using fmt::arg;
  return fmt::format(ask_lines, arg("half_days", half_days),
                     arg("afternoon", mode.hours_24 ? "" : " + U"), arg("set_century", century),
                     arg("number", mode.binary ? "" : "X = (X \\ 10) * 16 + X MOD 10: "));
}

/// The clock's century in front of its year, where the chip holds one that a clock could have.
std::string showing(const WritePlan& plan) {
  const std::string century =
      plan.century
          ? fmt::format("A = {}: GOSUB 850: IF X = 25 OR X = 32 THEN PRINT HEX$(X);", *plan.century)
          : "REM The year:";
  return fmt::format(show_lines, fmt::arg("show_century", century));
}

/// A century that the clock brought along counts in the code as the image's.
std::string checking_century(const WritePlan& plan) {
  if (!plan.century) return "";
  return fmt::format("275 IF A = {} THEN B = {}: GOSUB 850: IF X = 25 OR X = 32 THEN 295\n",
                     *plan.century, plan.image[*plan.century]);
}

/// With a clock that stays, so does a century that a clock could have: 19h or 20h.
std::string keeping_century(const WritePlan& plan) {
  if (!plan.century) return "";
  return fmt::format("239 IF T = 0 THEN A = {}: GOSUB 850: IF X = 25 OR X = 32 THEN K(A) = 4\n",
                     *plan.century);
}

/// A check of one byte that is a plain sum over one stretch, or a balance: BASIC has the time to
/// find a value for it that fits none of the states in between.
struct Counted {
  Range over;
  int start = 0;
  char covered_sign = '+';  ///< of a covered byte in the value that is stored
};

std::optional<Counted> counted(const Check& check) {
  if (check.over.size() != 1) return std::nullopt;
  const Range over = check.over.front().range;
  if (const auto* balance = std::get_if<BalanceRule>(&check.rule))
    return Counted{over, balance->target, '-'};
  const auto* sum = std::get_if<SumRule>(&check.rule);
  if (!sum || sum->width != 8 || sum->pairs || sum->sign != Sign::plain) return std::nullopt;
  return Counted{over, sum->start, '+'};
}

/// S becomes the value that spoils the check byte.
std::string spoiling(const Parcel& parcel, const WritePlan& plan) {
  if (!plan.spoil) return "";
  const auto sum = counted(parcel.checks[plan.spoil->check]);
  if (plan.spoil->certain || !sum)
    return fmt::format("232 S = {}: K({}) = 3\n", plan.spoil->value, plan.spoil->at);
  const char back = sum->covered_sign == '+' ? '-' : '+';
  using fmt::arg;
  return fmt::format(
      "232 S = {start}: FOR A = {first} TO {last}: GOSUB 850: S = S {sign} X: NEXT A\n"
      "233 U(S AND 255) = 1: FOR A = {first} TO {last}: IF K(A) <> 1 THEN 235\n"
      "234 GOSUB 850: S = S {back} X {sign} V(A): U(S AND 255) = 1\n"
      "235 NEXT A: S = 0: K({at}) = 3\n"
      "236 IF U(S) = 1 THEN S = S + 1: GOTO 236\n",
      arg("start", sum->start), arg("first", sum->over.first), arg("last", sum->over.last),
      arg("sign", sum->covered_sign), arg("back", back), arg("at", plan.spoil->at));
}

std::string clock_lines(const Parcel& parcel, const WritePlan& plan) {
  switch (parcel.clock) {
    case ClockPolicy::image:
      return std::string(image_time_lines);
    case ClockPolicy::ask:
      return std::string(ask_always_lines) + showing(plan) + asking(plan);
    case ClockPolicy::keep:
      break;
  }
  return std::string(keep_lines) + showing(plan) + asking(plan);
}

std::string with_dos_line_ends(std::string_view text) {
  std::string dos;
  for (const char c : text) dos += c == '\n' ? "\r\n" : std::string(1, c);
  return dos;
}

std::string numbers_of(const Addresses& addresses) {
  return addresses.empty() ? "none" : to_prose(addresses);
}

}  // namespace

Delivery basic_listing(const Parcel& parcel, const WritePlan& plan) {
  refuse_without_program(parcel);
  const auto data = data_lines(parcel, plan);
  using fmt::arg;
  const bool asks = parcel.clock != ClockPolicy::image;
  const bool offers = parcel.clock == ClockPolicy::keep;
  const std::uint16_t code = open_code(parcel.image, parcel.hidden);
  const bool hides = !parcel.hidden.empty();
  std::string listing = fmt::format(
      restore_listing, arg("title", "Image for the clock chip: " + parcel.layout),
      arg("dim_hidden", hides ? dim_hidden : ""), arg("take_hidden", hides ? take_hidden_line : ""),
      arg("and_open", hides ? and_open : ""), arg("hide_wrong", hides ? hide_wrong_line : ""),
      arg("if_open", hides ? if_open : ""), arg("rows", data.size()),
      arg("high", hex2(static_cast<std::uint8_t>(code >> 8))),
      arg("low", hex2(static_cast<std::uint8_t>(code))), arg("code", fmt::format("{:04X}", code)),
      arg("left_alone", numbers_of(plan.left_alone)), arg("offer", offers ? offer : ""),
      arg("choose", offers ? choose_lines : ""),
      arg("probe", plan.image.size() == Image::large_size ? probe_lines : ""),
      arg("ask", asks ? "238 IF T = 2 THEN GOSUB 540\n" : ""),
      arg("check_century", checking_century(plan)), arg("tell_time", asks ? tell_time_line : ""),
      arg("keep_century", asks ? keeping_century(plan) : ""), arg("spoil", spoiling(parcel, plan)),
      arg("write_spoiled",
          plan.spoil ? fmt::format("247 A = {}: X = S: GOSUB 800\n", plan.spoil->at) : ""),
      arg("clock", clock_lines(parcel, plan)));
  for (const std::string& line : data) listing += line;
  Delivery delivery;
  delivery.content = with_dos_line_ends(listing);
  delivery.keystrokes = count_keystrokes(delivery.content);
  return delivery;
}

}  // namespace rtcmend
