#pragma once

#include <nlohmann/json.hpp>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "discover/trace.h"
#include "layout/layout.h"

namespace rtcmend {

/// More warnings than these, told at every write, are not read; the schema's limit.
constexpr std::size_t most_warnings = 16;

/// A layout file in the making.
struct Draft {
  nlohmann::ordered_json layout;   ///< valid for --layout
  std::vector<std::string> notes;  ///< what a merge left as it was, and why
};

/// A layout from what a session showed: a field for each setting, the checks, the bytes that change
/// by themselves. Each line's `source` says how well it is supported.
Draft draft_layout(const Trace& trace);

/// A found check as an entry of a layout file. `source` is its standing.
nlohmann::ordered_json check_entry(const Check& check, const std::string& source);

/// A layout file that is there already.
struct EarlierDraft {
  std::string_view text;
  std::string where;  ///< its name, for messages
  Layout layout;      ///< the text as loaded, with the parts that it includes
};

/// Puts what is new in `found` into an earlier draft and leaves what is there as long as `dumps`,
/// the new ones, agree: a field of the same id over the same bits learns further values, one that
/// would claim bits of another, or of an included part, is left out. A check of the draft that does
/// not hold in the new dumps is narrowed to what does, or dropped; what was taken for never
/// changing and changed gives way. All of it is said in the notes. Refuses (Error) a file for a
/// chip of another size.
Draft merge_draft(const EarlierDraft& earlier, const Draft& found,
                  std::span<const Image> dumps = {});

/// An id of a layout file from free words: "Floppy B" becomes "floppy_b".
std::string id_from(std::string_view words);

}  // namespace rtcmend
