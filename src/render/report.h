#pragma once

#include <string>
#include <vector>

#include "desk/change.h"
#include "forms/form.h"
#include "judge/finding.h"
#include "judge/standing.h"

namespace rtcmend {

/// What amend, seal and compose tell after writing.
struct Report {
  std::string output;  ///< where it was written
  Form form = Form::raw;
  std::string layout;
  std::string layout_file;  ///< that it is from; empty = built in
  std::size_t size = 0;     ///< bytes of the image
  bool composed = false;    ///< made from nothing, so that every byte is new
  std::vector<Change> changes;
  std::vector<FieldChange> fields;  ///< the same in words
  Standing standing;
  bool sound = false;
  std::vector<Finding> findings;
  bool insisted = false;           ///< something spoke against writing it
  std::vector<std::string> notes;  ///< what is left to do in the machine
};

}  // namespace rtcmend
