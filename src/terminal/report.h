#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/image.h"
#include "forms/form.h"
#include "judge/finding.h"
#include "layout/layout.h"
#include "terminal/ink.h"

namespace rtcmend {

/// One byte that a command changed.
struct Change {
  Address at = 0;
  std::optional<std::uint8_t> before, after;  ///< nothing = unknown
  std::vector<std::string> fields;            ///< ids of the fields and checks it belongs to
};

/// Every byte that differs, ascending. Both images have the layout's size.
std::vector<Change> changes(const Image& before, const Image& after, const Layout& layout);

/// What amend, seal and compose tell after writing.
struct Report {
  std::string output;  ///< where it was written
  Form form = Form::raw;
  std::string layout;
  std::size_t size = 0;   ///< bytes of the image
  bool composed = false;  ///< made from nothing, so that every byte is new
  std::vector<Change> changes;
  bool sound = false;
  bool fit = false;  ///< sound, or not sound for what no write can change
  std::vector<Finding> findings;
  std::vector<std::string> notes;  ///< what is left to do in the machine
};

/// What was written, what changed, what is still to be said about it, and what to do next.
std::string report_text(const Report& report, const Ink& ink);

}  // namespace rtcmend
