#pragma once

#include <string>
#include <vector>

#include "layout/codec.h"

namespace rtcmend {

/// The fields of one group as a person reads them. It refers to the fields' layout.
struct FieldGroup {
  std::string name;                  ///< as the layout has it, "drives"
  std::vector<FieldReading> shown;   ///< a line each
  std::vector<FieldReading> all_no;  ///< flags that all say no, and are too many for a line each
};

/// Whether a person opens a dump for this group: drives, memory.
bool comes_first(const FieldGroup& group);

/// The groups of a layout: what comes first, then as the layout has them.
std::vector<FieldGroup> field_groups(const std::vector<FieldReading>& fields);

}  // namespace rtcmend
