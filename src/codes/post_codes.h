#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/advice.h"
#include "judge/examine.h"
#include "layout/layout.h"

namespace rtcmend {

/// What in an image speaks for a cause: a finding, perhaps only on one field, or a flag field that
/// the firmware set at its last start.
struct Symptom {
  std::string finding;  ///< id; empty = the flag speaks
  std::string field;    ///< id of the field that the finding must be about; empty = any
  std::string flag;     ///< id of a flag field
};

/// Why a code may have come up.
struct Cause {
  std::string text;
  std::vector<Symptom> symptoms;  ///< empty: nothing in the chip shows it
};

/// One numeric code of the power-on self-test.
struct PostCode {
  std::string code;
  std::string means;
  bool chip = true;           ///< false: not the clock chip's doing
  std::string look_at;        ///< then, what is to be looked at; empty when it is the chip's
  std::string only_in;        ///< the class of layouts whose firmware has it; empty = any
  std::vector<Cause> causes;  ///< likeliest first
  Advice remedy;
  int turn = 0;                     ///< the order of work among several codes
  std::string first_because;        ///< why it has that place
  std::vector<std::string> brings;  ///< codes that often go away with this one
  std::string source;               ///< or its standing
};

/// The codes that the program knows (layouts/post-codes.json), in the order of that file.
const std::vector<PostCode>& post_codes();
/// Null when it is not known.
const PostCode* post_code(std::string_view code);

/// Ids of the findings that speak for a cause, each once, in the order of its symptoms; flags stand
/// for "diagnostic-flag". None in a misread dump, whose bytes say nothing.
std::vector<std::string> symptoms_seen(const Cause& cause, const Examination& examination,
                                       const Layout& layout);

}  // namespace rtcmend
