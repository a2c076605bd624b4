#pragma once

#include <string>
#include <vector>

#include "codes/post_codes.h"
#include "judge/examine.h"
#include "layout/layout.h"

namespace rtcmend {

/// A code that a machine with this image would show at power-on.
struct Foretold {
  const PostCode* code = nullptr;
  std::vector<std::string> because;  ///< ids of findings, each once
  std::vector<std::string> why;      ///< the causes that they speak for, in words
};

/// What may raise a code or not: nobody can tell from the dump.
struct Unpromised {
  std::string text;                  ///< a sentence
  std::vector<std::string> because;  ///< ids of findings
};

/// What an image would raise at power-on.
struct Forecast {
  std::vector<Foretold> codes;        ///< in the order of work
  std::vector<Unpromised> unsettled;  ///< what keeps the forecast from being a promise
  bool misread = false;               ///< the dump was misread: nothing can be foretold from it
};

/// The codes that an image would raise. Only what lies in the chip can be
/// foreseen: a drive that is not there raises its code with the best of images.
Forecast forecast(const Examination& examination, const Layout& layout);

}  // namespace rtcmend
