#pragma once

#include <string>
#include <vector>

#include "codes/post_codes.h"
#include "judge/examine.h"
#include "layout/layout.h"

namespace rtcmend {

/// A cause, and what in the dump speaks for it.
struct ExplainedCause {
  std::string text;
  std::vector<std::string> seen;  ///< ids of findings; empty without a dump, or when none does
};

/// What one code says.
struct ExplainedCode {
  std::string code;                    ///< as asked for
  const PostCode* known = nullptr;     ///< null: no code that says anything about the chip
  std::vector<ExplainedCause> causes;  ///< those seen in the dump first, then likeliest first
};

struct Explanation {
  std::vector<ExplainedCode> codes;  ///< as asked for, each once
  /// What to do first, and why, a sentence a code; empty for fewer than two known codes.
  std::vector<std::string> order;
};

/// What codes say about the chip.
Explanation explain(const std::vector<std::string>& codes);
/// The same, tied to what a dump shows.
Explanation explain(const std::vector<std::string>& codes, const Examination& examination,
                    const Layout& layout);

}  // namespace rtcmend
