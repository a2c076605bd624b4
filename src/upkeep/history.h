#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "chip/calendar.h"
#include "judge/finding.h"
#include "judge/standing.h"
#include "layout/layout.h"
#include "repair/suspects.h"

namespace rtcmend {

/// A file of a machine's folder.
struct HistoryItem {
  std::string name;
  DateTime date;
  bool dated_by_name = true;          ///< otherwise the file's own time was taken
  std::optional<Image> image;         ///< nothing for a note, and for what could not be read
  std::string note;                   ///< the text of a note
  std::vector<Finding> reading = {};  ///< what is wrong with the reading of the dump
  std::string problem = {};           ///< why it is neither
  Provenance provenance = {};         ///< how the dump came

  bool is_note() const { return !image && problem.empty(); }
};

/// The date at the start of a file's name, "2031-05-14" or "20310514", perhaps with a time behind
/// it ("2031-05-14T0930", "20310514-0930"). Nothing when there is none.
std::optional<DateTime> date_in_name(std::string_view name);

/// A setting that is not what it was.
struct SettingChange {
  std::string id, label;
  std::string before, after;  ///< as text; a password says only whether it is set
};

/// One file, in its place in time.
struct HistoryEntry {
  /// Read rightly, and its settings are proven: an image to start from, whatever its clock says.
  bool is_good() const {
    return item.image && standing.dump == Standing::Dump::trusted &&
           standing.settings == Standing::Settings::proven;
  }

  HistoryItem item;
  Standing standing;
  bool sound = false;
  std::vector<Finding> faults;
  /// Small repairs that would explain its failed checks; none when it was misread.
  std::vector<Suspect> suspects;
  /// The good entry before it, which they were weighed by too.
  std::optional<std::size_t> weighed_with;
  std::vector<SettingChange> changes;  ///< against the dump before it
  Addresses other_bytes;               ///< that changed too, and belong to no setting or check
  std::optional<std::size_t> since;    ///< the entry that it was held against
};

/// A machine's dumps and notes in the order of their dates.
struct History {
  std::vector<HistoryEntry> entries;
  std::optional<std::size_t> last_good;  ///< the latest whose dump is trusted and settings proven
  bool latest_is_good = false;
};

/// Items of the layout's size are judged and held against the one before; of another size, they
/// are kept with a problem.
History history(std::vector<HistoryItem> items, const Layout& layout);

}  // namespace rtcmend
