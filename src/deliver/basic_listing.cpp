#include <algorithm>
#include <fmt/format.h>

#include "chip/registers.h"
#include "deliver/basic_data.h"
#include "deliver/carriers.h"
#include "deliver/keystrokes.h"

namespace rtcmend {

namespace {

constexpr int first_data_line = 1000;
constexpr std::size_t row_size = 16;
constexpr Address check_bytes_row = 0xFF;  // a DATA line of addresses: bytes that are written last

// V() holds the wanted bytes, K() what is done with them: 0 nothing, 1 write, 2 write last.
// T = 1: the time is written too.
constexpr std::string_view restore_listing = R"(10 REM {title}
20 DEFINT A-Z: DIM V(127), K(127)
30 FOR R = 1 TO {rows}: READ D$: C = 0: L = 990 + 10 * R
40 N = LEN(D$) \ 2: IF N < 3 OR LEN(D$) <> N + N THEN 900
50 FOR I = 1 TO N: H$ = MID$(D$, I + I - 1, 2): IF H$ = "--" AND I < N THEN 110
60 B = VAL("&H" + H$): IF I = N THEN 100
70 IF I = 1 THEN A = B: GOTO 90
80 IF A = 255 THEN K(B AND 127) = 2 ELSE P = (A + I - 2) AND 127: V(P) = B: K(P) = 1
90 GOSUB 700: GOTO 110
100 IF B <> C THEN 900
110 NEXT I: NEXT R: PRINT "All DATA lines are right. Bytes left alone: {left_alone}."
200 GOSUB 500
210 INPUT "W and Enter writes the chip, anything else leaves it alone"; Q$
220 IF Q$ <> "W" AND Q$ <> "w" THEN PRINT "Nothing was written.": END
{probe}240 IF T = 1 THEN A = 11: X = V(11) OR 128: GOSUB 800
245 IF T = 1 THEN FOR A = 0 TO 10: X = V(A): GOSUB 800: NEXT A
250 FOR W = 1 TO 2: FOR A = 14 TO 127: IF K(A) = W THEN X = V(A): GOSUB 800
260 NEXT A: NEXT W: IF T = 1 THEN A = 11: X = V(11): GOSUB 800
270 F = 0: FOR A = 14 TO 127: IF K(A) = 0 THEN 300
280 GOSUB 850: IF X = V(A) THEN 300
290 F = F + 1: PRINT HEX$(A); ": wanted "; HEX$(V(A)); ", found "; HEX$(X)
300 NEXT A: IF F > 0 THEN PRINT F; "byte(s) did not take."
310 IF F = 0 THEN PRINT "Every byte reads back as it was written."
320 A = 13: GOSUB 850: IF X < 128 THEN PRINT "The chip says that its cell is flat."
330 PRINT "Restart the machine now: it looks at these bytes only then.": END
{clock}700 C = C XOR B: FOR J = 1 TO 8: C = C + C: IF C > 255 THEN C = (C - 256) XOR 7
710 NEXT J: RETURN
800 OUT &H70, A OR 128: OUT &H71, X: GOTO 860
850 OUT &H70, A OR 128: X = INP(&H71)
860 OUT &H70, 13: Q = INP(&H71): RETURN
900 PRINT "Line"; L; "is mistyped. Nothing was written.": END
)";

// An image of 128 bytes must not go into a chip of 64, where 40h-7Fh are 00h-3Fh once more.
constexpr std::string_view probe_lines =
    R"(225 A = 127: GOSUB 850: U = X: A = 63: GOSUB 850: IF X <> U THEN 240
230 A = 127: X = 255 - U: GOSUB 800: A = 63: GOSUB 850: W = X: A = 127: X = U: GOSUB 800
235 IF W <> U THEN PRINT "This chip has 64 bytes, the image 128. Nothing was written.": END
)";

constexpr std::string_view image_time_lines = "500 T = 1: RETURN\n";

// 49 and 18 are 31h and 12h: no day or month is above, in decimal digits or binary.
constexpr std::string_view keep_lines =
    R"(500 T = 0: A = 10: GOSUB 850: U = X: A = 11: GOSUB 850: W = X: A = 13: GOSUB 850
505 IF (U AND 112) <> 32 OR W > 127 OR X < 128 THEN 540
507 A = 7: GOSUB 850: IF X < 1 OR X > 49 THEN 540
508 A = 8: GOSUB 850: IF X < 1 OR X > 18 THEN 540
510 PRINT "The clock says "; : A = 9: GOSUB 850: PRINT HEX$(X); "-";
515 A = 8: GOSUB 850: PRINT HEX$(X); "-"; : A = 7: GOSUB 850: PRINT HEX$(X); " ";
520 A = 4: GOSUB 850: PRINT HEX$(X); ":"; : A = 2: GOSUB 850: PRINT HEX$(X)
525 INPUT "Enter keeps it, N and Enter sets it"; Q$
530 IF Q$ = "N" OR Q$ = "n" THEN 540
535 {keep_century}RETURN
)";

constexpr std::string_view ask_lines =
    R"(540 INPUT "Year, month, day, such as 1994,5,6"; Y, M, D: Q = 31
545 IF M = 4 OR M = 6 OR M = 9 OR M = 11 THEN Q = 30
550 IF M = 2 THEN Q = 28: IF Y MOD 4 = 0 THEN Q = 29
555 IF Y < 1980 OR Y > 2099 OR M < 1 OR M > 12 OR D < 1 OR D > Q THEN 540
560 INPUT "Hour (0 to 23), minute, such as 14,30"; H, N
565 IF H < 0 OR H > 23 OR N < 0 OR N > 59 THEN 560
570 P = M: J = Y: IF M < 3 THEN P = M + 12: J = Y - 1
575 G = (D + 13 * (P + 1) \ 5 + J + J \ 4 - J \ 100 + J \ 400) MOD 7: IF G = 0 THEN G = 7
580 V(0) = 0: X = N: GOSUB 650: V(2) = X: V(6) = G: X = D: GOSUB 650: V(7) = X
585 X = M: GOSUB 650: V(8) = X: X = Y MOD 100: GOSUB 650: V(9) = X
590 {half_days}X = H: GOSUB 650: V(4) = X{afternoon}
595 {set_century}T = 1: RETURN
650 {number}RETURN
)";

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

std::vector<std::string> data_lines(const Parcel& parcel, const WritePlan& plan) {
  std::vector<std::string> lines;
  const auto add = [&](Address first, const Row& row) {
    lines.push_back(data_line(first_data_line + 10 * static_cast<int>(lines.size()), first, row));
  };
  for (std::size_t first = 0; first < plan.image.size(); first += row_size)
    add(static_cast<Address>(first), row_at(plan, static_cast<Address>(first)));
  const Row last = written_last(plan, parcel.checks);
  if (!last.empty()) add(check_bytes_row, last);
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

/// With a clock that stays, so does a century that a clock could have: 19h or 20h.
std::string keeping(const WritePlan& plan) {
  const std::string century =
      plan.century
          ? fmt::format("A = {}: GOSUB 850: IF X = 25 OR X = 32 THEN K(A) = 0\n536 ", *plan.century)
          : "";
  return fmt::format(keep_lines, fmt::arg("keep_century", century));
}

std::string clock_lines(const Parcel& parcel, const WritePlan& plan) {
  switch (parcel.clock) {
    case ClockPolicy::image:
      return std::string(image_time_lines);
    case ClockPolicy::ask:
      return "500 GOTO 540\n" + asking(plan);
    case ClockPolicy::keep:
      break;
  }
  return keeping(plan) + asking(plan);
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
  refuse_when_lost(parcel);
  const auto data = data_lines(parcel, plan);
  using fmt::arg;
  std::string listing =
      fmt::format(restore_listing, arg("title", "Image for the clock chip: " + parcel.layout),
                  arg("rows", data.size()), arg("left_alone", numbers_of(plan.left_alone)),
                  arg("probe", plan.image.size() == Image::large_size ? probe_lines : ""),
                  arg("clock", clock_lines(parcel, plan)));
  for (const std::string& line : data) listing += line;
  Delivery delivery;
  delivery.content = with_dos_line_ends(listing);
  delivery.keystrokes = count_keystrokes(delivery.content);
  return delivery;
}

}  // namespace rtcmend
