#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "chip/calendar.h"
#include "judge/finding.h"
#include "layout/layout.h"
#include "make/amend.h"
#include "repair/suspects.h"

namespace rtcmend {

// The single changes that a person can make to an image, one after the other. None of them seals
// but sealing itself. `reading` is what is wrong with the reading of the dump that the image began
// as: it is never judged anew by bytes that were changed.

/// One byte and what it shall hold.
struct ByteSetting {
  Address at = 0;
  std::uint8_t value = 0;
};

/// "2D=40" is one byte, "2D=4001" two. Refuses (Error) what is neither.
std::vector<ByteSetting> parse_bytes(std::string_view text);

/// The fields set, and what follows from them. Refuses (Error) as amend() does.
Image with_fields(const Image& image, const Layout& layout, const std::vector<Setting>& settings);
/// Refuses (Error) bytes that lie outside the chip or belong to a password.
Image with_byte_settings(const Image& image, const Layout& layout,
                         const std::vector<ByteSetting>& bytes);
/// The clock set and running, the century with it.
Image with_time(const Image& image, const Layout& layout, const DateTime& time);

/// The small repairs that would explain failed checks; none when the dump was misread otherwise
/// than that further dumps waver, for then the cause is known, and it is not one byte.
std::vector<Suspect> open_suspects(const Image& image, const Layout& layout,
                                   const std::vector<Finding>& reading,
                                   const Provenance& provenance);
/// A dump put right.
struct Amended {
  Image image;
  std::vector<Finding> reading;  ///< what is still wrong with its reading
};
/// The repair with this id made. Refuses (Error) one that is not among the suspects. Where it
/// settles what further dumps left open, they no longer count against the reading.
Amended with_repair(const Image& image, const Layout& layout, const std::vector<Finding>& reading,
                    const Provenance& provenance, std::string_view suspect);

/// Several changes at once.
struct Amendment {
  std::vector<std::string> repairs;  ///< ids of suspects, one after the other
  std::vector<ByteSetting> bytes;
  std::vector<Setting> settings;
  std::optional<DateTime> clock;

  /// Nothing but repairs: their checks hold by themselves, and sealing would hide what else is
  /// wrong.
  bool only_repairs() const { return bytes.empty() && settings.empty() && !clock; }
};

/// The repairs made; then bytes, settings and clock, and every check sealed.
Amended amended(const Image& image, const Layout& layout, const std::vector<Finding>& reading,
                const Provenance& provenance, const Amendment& amendment);

/// One byte that a change touched.
struct Change {
  Address at = 0;
  std::optional<std::uint8_t> before, after;  ///< nothing = unknown, or not to be told
  std::vector<std::string> fields;            ///< ids of the fields and checks it belongs to
  bool hidden = false;                        ///< has bits of a password: told by its address alone
};

/// That a change took the clock to another way of counting, in a sentence; empty when it did not.
std::string mode_change(const Image& before, const Image& after);

/// Every byte that differs, ascending. Both images have the layout's size.
std::vector<Change> changes(const Image& before, const Image& after, const Layout& layout);

/// One field that a change touched, in words.
struct FieldChange {
  std::string id, label;
  std::string before, after;  ///< "640 KiB", "unknown", "not in use"
};

/// Every field that reads otherwise, in the layout's order. Passwords are only set or not set.
std::vector<FieldChange> field_changes(const Image& before, const Image& after,
                                       const Layout& layout);

}  // namespace rtcmend
