#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "layout/layout.h"
#include "make/amend.h"

namespace rtcmend {

/// The shape of a fixed disk. Sectors have 512 bytes and are counted to a track.
struct Geometry {
  int cylinders = 0, heads = 0, sectors = 0;
  friend bool operator==(const Geometry&, const Geometry&) = default;
};

/// Bytes.
std::uint64_t capacity(const Geometry& geometry);
std::uint64_t capacity(const DriveType& type);

/// A user's words as bytes: "40M" and "40MB" are 40,000,000, as disks are sold; "40MiB" is
/// 41,943,040. K and G likewise, a fraction is allowed. Refuses (Error) anything else.
std::uint64_t parse_capacity(std::string_view text);

/// The disk at hand: its geometry, or at least its capacity in bytes.
struct Disk {
  std::optional<Geometry> geometry;
  std::uint64_t capacity = 0;
};
/// Refuses (Error) numbers that no disk has: 1 to 65,535 cylinders, 255 heads, 255 sectors.
Disk disk_of(const Geometry& geometry);
Disk disk_of_capacity(std::uint64_t bytes);

enum class Fit {
  exact,  ///< the same geometry, or the same capacity where only that is known
  inside  ///< smaller, so that it never runs past the disk's end
};

/// "exact", "inside".
std::string_view name(Fit fit);

/// A type that the disk can be used with.
struct DriveMatch {
  DriveType type;
  Fit fit = Fit::inside;
  std::uint64_t capacity = 0;  ///< bytes that the type makes usable
  std::uint64_t lost = 0;      ///< bytes of the disk that stay unused
  bool unsure = false;         ///< a type of the common table from first_unsure_type up
};

/// From here up each firmware has its own table (TechHelp).
inline constexpr int first_unsure_type = 24;

/// A block of the layout that takes a disk's parameters as they are.
struct ByHand {
  std::string label;                 ///< "first disk" or "second disk"
  std::optional<std::int64_t> type;  ///< the type that says "look in the block", where known
  std::vector<Setting> settings;     ///< to fill it with this disk's parameters
  std::string problem;               ///< why it cannot take them; empty when it can
};

/// How a disk can be entered.
struct DriveAdvice {
  bool common_table = true;         ///< false: the layout has its own
  std::vector<DriveMatch> matches;  ///< exact ones first, then the least lost
  std::vector<ByHand> by_hand;      ///< empty where only the capacity is known
};

/// The type with this number in the layout's own table, or in the common one. Refuses (Error) a
/// number that the table has not.
DriveType drive_type_numbered(int number, const Layout* layout);

/// The types of the layout's table (or of the common one, without a layout or without its own)
/// that the disk can be used with, and the layout's blocks for parameters entered by hand. Refuses
/// (Error) a layout that keeps no fixed-disk type.
DriveAdvice advise_on_drive(const Disk& disk, const Layout* layout);

}  // namespace rtcmend
