#include <fmt/format.h>

#include "deliver/carriers.h"
#include "deliver/keystrokes.h"

namespace rtcmend {

namespace {

// Lines that end with CR LF, as DOS wants them. 850 reads a byte of the chip, 700 takes one into
// the row's CRC-8/SMBUS, 600 makes two hex digits. A screen of fewer columns than a row has (the
// firmware keeps their number at 40h:4Ah; RBIL61) gets rows without blanks, which fit into 40.
constexpr std::string_view capture_listing =
    "10 DEFINT A-Z: DIM V(127): G$ = \" \": DEF SEG = &H40\r\n"
    "15 X = PEEK(&H4A): IF X > 0 AND X < 58 THEN G$ = \"\"\r\n"
    "20 INPUT \"A file for the rows (Enter alone: the screen only)\"; F$\r\n"
    "30 IF F$ <> \"\" THEN OPEN F$ FOR OUTPUT AS #1\r\n"
    "40 FOR W = 1 TO 500: A = 10: GOSUB 850: IF X < 128 THEN 60\r\n"
    "50 NEXT W\r\n"
    "60 FOR A = 0 TO 13: GOSUB 850: V(A) = X: NEXT A\r\n"
    "70 A = 0: GOSUB 850: IF X <> V(0) THEN 40\r\n"
    "80 FOR A = 14 TO 127: GOSUB 850: V(A) = X: NEXT A\r\n"
    "90 S = {}: IF S > 0 THEN 120\r\n"
    "100 S = 64: FOR A = 14 TO 63: IF V(A) <> V(A + 64) THEN S = 128\r\n"
    "110 NEXT A\r\n"
    "120 FOR R = 0 TO S - 1 STEP 16: C = 0: B = R: GOSUB 700: GOSUB 600: T$ = H$ + \":\" + G$\r\n"
    "130 FOR A = R TO R + 15: B = V(A): GOSUB 700: GOSUB 600: T$ = T$ + H$ + G$: NEXT A\r\n"
    "140 B = C: GOSUB 600: T$ = T$ + \"=\" + H$: PRINT T$: IF F$ <> \"\" THEN PRINT #1, T$\r\n"
    "150 NEXT R: IF F$ <> \"\" THEN CLOSE #1\r\n"
    "160 END\r\n"
    "600 H$ = RIGHT$(\"0\" + HEX$(B), 2): RETURN\r\n"
    "700 C = C XOR B: FOR J = 1 TO 8: C = C + C: IF C > 255 THEN C = (C - 256) XOR 7\r\n"
    "710 NEXT J: RETURN\r\n"
    "850 OUT &H70, A OR 128: X = INP(&H71): OUT &H70, 13: Q = INP(&H71): RETURN\r\n";

}  // namespace

Delivery basic_capture(const CaptureOrder& order) {
  Delivery delivery;
  delivery.content = fmt::format(capture_listing, order.size.value_or(0));
  delivery.keystrokes = count_keystrokes(delivery.content);
  return delivery;
}

}  // namespace rtcmend
