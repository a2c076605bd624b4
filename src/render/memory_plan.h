#pragma once

#include <string>
#include <vector>

#include "judge/examine.h"
#include "layout/layout.h"
#include "repair/suspects.h"

namespace rtcmend {

/// Who a byte belongs to.
enum class Owner {
  clock,      ///< time, date, alarm
  registers,  ///< A to D
  group,      ///< fields of the layout, of one group or several
  check,      ///< a stored check, and no field
  nobody
};

/// What is wrong with a byte, as far as a drawing tells.
enum class Damage { none, doubt, fault };

/// One byte of a drawn memory.
struct PlannedByte {
  Address at = 0;
  Owner owner = Owner::nobody;
  std::vector<std::size_t> groups;      ///< indices into MemoryPlan::groups, each once
  std::vector<const Field*> fields;     ///< that touch it
  std::vector<std::size_t> stores;      ///< indices of the checks that are stored here
  std::vector<std::size_t> covered_by;  ///< indices of the checks that cover it and count
  Damage damage = Damage::none;
  bool suspected = false;  ///< the likeliest small repair would change it
  bool concealed = false;  ///< belongs to a password: its value is never shown
};

/// What a drawing of the memory shows. It refers to the layout, which must outlive it.
struct MemoryPlan {
  std::vector<std::string> groups;  ///< of the layout's fields, in the order they first appear
  std::vector<PlannedByte> bytes;   ///< one for each address, ascending
};

MemoryPlan memory_plan(const Image& image, const Layout& layout, const Examination& examination);
/// The plan with the bytes marked that the likeliest suspect (the first) would change.
MemoryPlan with_suspects(MemoryPlan plan, const std::vector<Suspect>& suspects);

/// A group's letter: A, B ... Z, AA, AB ...
std::string group_letter(std::size_t group);
/// A group's name as a heading: "Drives".
std::string group_title(std::string group);
/// What the chip itself calls one of its own bytes, in one short word: "min", "alarm", "reg B".
/// Empty for RAM.
std::string chip_word(Address at);
/// Whether two neighbours are drawn as one: the same fields, or the same stored check, or both the
/// clock's.
bool same_owner(const PlannedByte& a, const PlannedByte& b);

}  // namespace rtcmend
