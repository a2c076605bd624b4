#pragma once

#include <string>

#include "render/card.h"
#include "terminal/ink.h"

namespace rtcmend {

/// How much of registers A to D is written out.
enum class RegisterDetail { a_line_each, every_bit };

/// A dump as a record card: heading, clock, registers, fields by group, checks, findings.
std::string show_text(const Card& card, RegisterDetail detail, const Ink& ink);
/// The judgement alone: verdict, checks, findings.
std::string verify_text(const Card& card, const Ink& ink);

}  // namespace rtcmend
