#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "deliver/delivery.h"

namespace rtcmend {

/// What still works at the old machine.
enum class Have {
  floppy,         ///< it starts from a floppy
  dos,            ///< it comes to a DOS prompt
  writable_disk,  ///< a disk there takes a file
  debugger,       ///< DOS brings its debugger
  basic,          ///< a BASIC starts
  serial,         ///< a serial cable, with a program at the other end
  chip_out        ///< the chip comes out of its socket with its cell, and there is a programmer
};

inline constexpr int have_count = 7;

/// "floppy", "dos", "writable", "debugger", "basic", "serial", "chip-out".
std::string_view name(Have have);
/// The question that settles it, to be answered by yes or no.
std::string_view question(Have have);
std::vector<Have> all_haves();
/// "dos,serial". Refuses (Error) an unknown word with the nearest ones.
std::set<Have> haves_named(std::string_view list);

/// What is at hand there, as far as it is known.
struct Means {
  std::set<Have> have;
  std::optional<DiskFormat> disk;  ///< what the floppy drive reads; nothing while it is not told

  friend bool operator==(const Means&, const Means&) = default;
};

/// A way, and whether it is open.
struct Opening {
  Way way;
  bool open = false;
  std::string needs;   ///< in plain words
  std::string cannot;  ///< what it cannot do
};

/// Every way, the best first: the open ones by how little is typed and how much they check.
std::vector<Opening> openings(const std::set<Have>& have);
/// What is to be said of the chip's own way, a programmer; empty where it is not open.
std::string programmer_words(const std::set<Have>& have);

}  // namespace rtcmend
