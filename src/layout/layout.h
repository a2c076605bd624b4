#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "check/check.h"
#include "layout/field.h"

namespace rtcmend {

/// A fixed-disk type of a firmware's table. 512-byte sectors.
struct DriveType {
  int type = 0;
  int cylinders = 0, heads = 0, sectors = 0;
  std::optional<int> write_precompensation;  ///< first cylinder; 0 = all, nothing = none
  int landing_zone = 0;

  friend bool operator==(const DriveType&, const DriveType&) = default;
};

/// What one firmware agrees on over the RAM bytes of a chip: a class with its traits, or one of
/// somebody's own.
struct Layout {
  std::string id;  ///< "at+sum-40-7d+memory-34", or the name of one's own
  std::string of;  ///< its class: "at"; empty = it stands by itself
  std::string title;
  std::size_t size =
      64;  ///< the least that its chip may have, bytes: a larger one has bytes unused
  std::vector<Field> fields;
  std::vector<Check> checks;
  std::vector<std::size_t> sealing;  ///< indices of checks, in the order they must be sealed
  std::vector<std::string> sources;
  std::vector<std::string> notes;
  std::vector<std::string> after_composing;  ///< what a composed image leaves to its user
  std::vector<std::string> when_writing;     ///< what every written image of it must be told with
  std::vector<DriveType> drive_types;        ///< its own table; empty = the common one
  /// The files that it was read from, its own first; empty = built in.
  std::vector<std::string> files;

  /// Null when there is none.
  const Field* field(std::string_view id) const;
  /// Refuses (Error) an unknown field with the nearest names.
  const Field& need_field(std::string_view id) const;
  /// Fields that touch a byte.
  std::vector<const Field*> fields_at(Address at) const;
  /// Whether a byte holds bits of a password, so that its value is never shown.
  bool is_private(Address at) const;
  /// Checks that cover a byte, and checks that store into it.
  std::vector<const Check*> checks_over(Address at) const;
  std::vector<const Check*> checks_at(Address at) const;

  friend bool operator==(const Layout&, const Layout&) = default;
};

/// The least size of a chip that has all the bytes which fields, checks and conditions look at.
std::size_t least_size(const Layout& layout);

/// Whether PC firmware keeps this chip. It asks for the time in BCD on a 24-hour dial, whatever
/// register B says (RBIL61, INT 1Ah AH = 02h). So do the classes of PCs, and what names a century.
bool is_of_a_pc(const Layout& layout);

/// The century (19 or 20) from the field `century`, when there is one and it is legal.
std::optional<int> century_in(const Layout& layout, const Image& image);

}  // namespace rtcmend
