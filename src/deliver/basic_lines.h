#pragma once

#include <string_view>

namespace rtcmend {

// The lines of the BASIC listing that writes, for fmt::format: what stands in braces is filled in
// by basic_listing.cpp. Subroutines: 500 looks at the clock, 540 asks for the time, 700 takes B
// into a DATA line's code, 720 takes B into the image's, 800 writes X to the chip's byte A, 850
// reads it.

// V() holds the wanted bytes, K() what is done with them: 0 nothing, 1 write, 2 write behind those,
// 3 write last, 4 keep what the chip has. K(0) = 1: writing has begun. T = 0: the clock is left
// alone, 1: the time is written, 2: it is asked for.
//
// Z and E are the high and the low byte of the image's code. It is computed twice, of what the DATA
// lines have become in memory before anything is written, and of what the chip gives back: a slip
// in any other line than a DATA line shows there. H(A) = 1: the byte is a password's, so the code
// leaves it out and the screen says only where it is; the lines about that come along where a
// layout has a password.
inline constexpr std::string_view restore_listing = R"(10 REM {title}
20 DEFINT A-Z: DIM V(127), K(127), U(255){dim_hidden}: ON ERROR GOTO 950
30 FOR R = 1 TO {rows}: READ D$: C = 0: L = 990 + 10 * R
35 IF INSTR(D$, "O") > 0 THEN PRINT "Line"; L; "has the letter O for a zero.": END
40 N = LEN(D$) \ 2: IF N < 3 OR LEN(D$) <> N + N THEN 900
50 FOR I = 1 TO N: H$ = MID$(D$, I + I - 1, 2): IF H$ = "--" AND I < N THEN 110
60 B = VAL("&H" + H$): IF I = N THEN 100
70 IF I = 1 THEN A = B: GOTO 90
{take_hidden}80 IF A = 255 THEN K(B AND 127) = 2 ELSE P = (A + I - 2) AND 127: V(P) = B: K(P) = 1
90 GOSUB 700: GOTO 110
100 IF B <> C THEN 900
110 NEXT I: NEXT R: Z = 255: E = 255: FOR A = 14 TO 127: B = V(A): IF K(A) > 0 {and_open}THEN GOSUB 720
120 NEXT A: IF Z <> &H{high} OR E <> &H{low} THEN 910
130 PRINT "All DATA lines are right. Bytes left alone: {left_alone}."
200 GOSUB 500
210 PRINT "W and Enter writes the chip.{offer} N and Enter leaves all as it is."
215 INPUT "What is it to be"; Q$: IF Q$ = "N" OR Q$ = "n" THEN PRINT "Nothing was written.": END
{choose}220 IF Q$ <> "W" AND Q$ <> "w" THEN 210
222 K(0) = 1
{probe}{spoil}{ask}{keep_century}240 IF T = 1 THEN A = 11: X = V(11) OR 128: GOSUB 800
245 IF T = 1 THEN FOR A = 0 TO 10: X = V(A): GOSUB 800: NEXT A
{write_spoiled}250 FOR W = 1 TO 3: FOR A = 14 TO 127: IF K(A) = W THEN X = V(A): GOSUB 800
260 NEXT A: NEXT W: IF T = 1 THEN A = 11: X = V(11): GOSUB 800
270 F = 0: Z = 255: E = 255: FOR A = 14 TO 127: IF K(A) = 0 THEN 300
{check_century}280 GOSUB 850: B = X: IF X = V(A) THEN 295
{hide_wrong}290 F = F + 1: PRINT HEX$(A); ": wanted "; HEX$(V(A)); ", found "; HEX$(X)
295 {if_open}GOSUB 720
300 NEXT A: IF F > 0 THEN PRINT F; "byte(s) did not take."
305 H$ = RIGHT$("0" + HEX$(Z), 2) + RIGHT$("0" + HEX$(E), 2)
310 PRINT "Code of what the chip holds: "; H$; ". It must be {code}."
315 PRINT "Another code: look at lines 200 to 860 and RUN again before a restart."
{tell_time}320 A = 13: GOSUB 850: IF X < 128 THEN PRINT "The chip says that its cell is flat: unplug before you mend it."
330 PRINT "Restart the machine now: it looks at these bytes only then.": END
{clock}700 C = C XOR B: FOR J = 1 TO 8: C = C + C: IF C > 255 THEN C = (C - 256) XOR 7
710 NEXT J: RETURN
720 G = Z XOR B: G = G XOR G \ 16: Z = E XOR (G AND 15) * 16 XOR G \ 8
730 E = (G AND 7) * 32 XOR G: RETURN
790 PRINT "Line 730 is missing.": END
800 IF K(0) = 0 THEN PRINT "A line from 20 to 730 is mistyped. Nothing was written.": END
810 OUT &H70, A OR 128: OUT &H71, X: GOTO 860
850 OUT &H70, A OR 128: X = INP(&H71)
860 OUT &H70, 13: Q = INP(&H71): RETURN
900 PRINT "Line"; L; "is mistyped. Nothing was written.": END
910 PRINT "A line from 20 to 120 or 700 to 730 is mistyped. Nothing was written.": END
950 PRINT "Error"; ERR; "in line"; ERL; ": look at it, and whether a line is missing."
960 IF K(0) = 0 THEN PRINT "Nothing was written.": END
970 PRINT "The chip is half written: mend the line and RUN again before a restart.": END
)";

// An image of 128 bytes must not go into a chip of 64, where 40h-7Fh are 00h-3Fh once more.
inline constexpr std::string_view probe_lines =
    R"(225 A = 79: GOSUB 850: U = X: A = 15: GOSUB 850: IF X <> U THEN 231
226 X = 255: IF U = 255 THEN X = 0
227 GOSUB 800: A = 79: GOSUB 850: W = X: A = 15: X = U: GOSUB 800
229 IF W <> U THEN PRINT "This chip has 64 bytes, the image 128. Nothing was written.": END
231 REM The chip has 128 bytes.
)";

inline constexpr std::string_view dim_hidden = ", H(127)";
inline constexpr std::string_view take_hidden_line =
    "75 IF A = 254 THEN H(B AND 127) = 1: GOTO 90\n";
inline constexpr std::string_view and_open = "AND H(A) = 0 ";
inline constexpr std::string_view hide_wrong_line =
    "285 IF H(A) = 1 THEN F = F + 1: PRINT HEX$(A); \": a password's byte\": GOTO 295\n";
inline constexpr std::string_view if_open = "IF H(A) = 0 THEN ";

inline constexpr std::string_view choose_lines =
    R"(217 IF Q$ = "T" OR Q$ = "t" THEN T = 2: Q$ = "W"
)";
inline constexpr std::string_view offer = " T and Enter sets the clock as well.";

inline constexpr std::string_view image_time_lines = "500 T = 1: RETURN\n";
inline constexpr std::string_view ask_always_lines =
    "500 T = 2: PRINT \"The time is asked for behind W, as ordered.\": RETURN\n";

// 49 and 18 are 31h and 12h: no day or month is above, in decimal digits or binary.
inline constexpr std::string_view keep_lines =
    R"(500 T = 2: A = 10: GOSUB 850: U = X: A = 11: GOSUB 850: F = X: A = 13: GOSUB 850
503 H$ = "was without power": IF X < 128 THEN 512
505 H$ = "is stopped": IF (U AND 112) <> 32 OR F > 127 THEN 512
507 H$ = "holds no date": A = 7: GOSUB 850: J = X: A = 8: GOSUB 850
509 IF J < 1 OR J > 49 OR X < 1 OR X > 18 THEN 512
510 T = 0: PRINT "The clock runs and is left alone: "; : GOTO 514
512 PRINT "The clock "; H$; ", so W asks for the time.": RETURN
)";

// With F = register B: prints what the clock says.
inline constexpr std::string_view show_lines =
    R"(514 {show_century}
515 A = 9: GOSUB 610: PRINT "-"; : A = 8: GOSUB 610: PRINT "-"; : A = 7: GOSUB 610
520 PRINT " "; : A = 4: GOSUB 610: PRINT ":"; : A = 2: GOSUB 610: A = 4: GOSUB 850
525 IF (F AND 2) = 0 THEN IF X > 127 THEN PRINT " pm"; ELSE PRINT " am";
530 PRINT ".": IF (F AND 6) <> 2 THEN PRINT "Its mode is unusual (12 hours or binary): set it."
535 RETURN
610 GOSUB 850: IF A = 4 THEN X = X AND 127
615 IF (F AND 4) = 4 THEN X = (X \ 10) * 16 + X MOD 10
620 PRINT RIGHT$("0" + HEX$(X), 2); : RETURN
)";

inline constexpr std::string_view tell_time_line =
    "317 IF T = 1 THEN A = 11: GOSUB 850: F = X: PRINT \"The clock now says \"; : GOSUB 514\n";

inline constexpr std::string_view ask_lines =
    R"~(540 INPUT "The date, such as 1994-05-06 (Enter alone leaves the clock)"; Q$
542 IF Q$ = "" THEN T = 0: RETURN
545 Y = VAL(MID$(Q$, 1, 4)): M = VAL(MID$(Q$, 6, 2)): D = VAL(MID$(Q$, 9, 2)): Q = 31
547 IF M = 4 OR M = 6 OR M = 9 OR M = 11 THEN Q = 30
550 IF M = 2 THEN Q = 28: IF Y MOD 4 = 0 THEN Q = 29
553 IF Y < 1980 OR Y > 2099 OR M < 1 OR M > 12 OR D < 1 OR D > Q THEN 540
555 H$ = RIGHT$(STR$(Y), 4) + "-" + RIGHT$(STR$(100 + M), 2) + "-" + RIGHT$(STR$(100 + D), 2)
557 IF H$ <> Q$ THEN 540
560 INPUT "The time when you press Enter, of 24 hours, such as 14:30"; Q$
562 IF Q$ = "" THEN T = 0: RETURN
564 H = VAL(MID$(Q$, 1, 2)): N = VAL(MID$(Q$, 4, 2)): IF H > 23 OR N > 59 THEN 560
566 IF RIGHT$(STR$(100 + H), 2) + ":" + RIGHT$(STR$(100 + N), 2) <> Q$ THEN 560
570 P = M: J = Y: IF M < 3 THEN P = M + 12: J = Y - 1
575 G = (D + 13 * (P + 1) \ 5 + J + J \ 4 - J \ 100 + J \ 400) MOD 7: IF G = 0 THEN G = 7
580 V(0) = 0: X = N: GOSUB 650: V(2) = X: V(6) = G: X = D: GOSUB 650: V(7) = X
585 X = M: GOSUB 650: V(8) = X: X = Y MOD 100: GOSUB 650: V(9) = X
590 {half_days}X = H: GOSUB 650: V(4) = X{afternoon}
595 {set_century}T = 1: RETURN
650 {number}RETURN
)~";

}  // namespace rtcmend
