#pragma once

#include <string>
#include <vector>

#include "forms/row_code.h"

namespace rtcmend {

/// Slips of the hand or eye that turn a row that fits its code into this one, each in words such as
/// "27 at 19h was read as 72". The usual slips: one digit taken for one that looks like it, two
/// neighbouring digits or bytes swapped, a wrong row address, the code itself misread, an unknown
/// byte that was known when the code was made.
std::vector<std::string> usual_slips(const Row& row);

/// Any other single wrong digit that would explain the row; weak evidence, as about two of the 480
/// possible ones fit by luck.
std::vector<std::string> other_slips(const Row& row);

/// What to try about a row that does not fit its code, in one sentence.
std::string slip_remedy(const Row& row);

/// The digit that a letter or sign was likely meant to be, as "0" for "O"; 0 when there is none.
char digit_for(char letter);

}  // namespace rtcmend
