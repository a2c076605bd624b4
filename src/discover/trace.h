#pragma once

#include "discover/encoding.h"
#include "discover/mistakes.h"
#include "discover/solve.h"

namespace rtcmend {

/// A value of a traced field and what is stored for it.
struct TracedValue {
  std::string value;  ///< for a shared field "floppy_b=1.44M"
  std::uint64_t raw = 0;
  std::size_t dumps = 0;  ///< that show it
};

/// A field that the session brought to light.
struct TracedField {
  std::vector<std::string> settings;  ///< the one it belongs to, or those it is worked out from
  Encoding encoding;
  std::vector<TracedValue> values;
  std::vector<std::string> drags;       ///< settings that this one moves along
  std::vector<std::string> dragged_by;  ///< settings that move this one along
  bool is_count = false;                ///< shared: how many of the settings are not stored as 0
  std::string open;  ///< why nothing is settled about it; empty = it is a field and nothing else

  bool is_shared() const { return settings.size() > 1; }
};

/// What a session of dumps says about a firmware.
struct Trace {
  std::size_t size = 64;  ///< of the chip, bytes
  std::vector<TracedField> fields;
  Addresses restless;             ///< RAM bytes that change by themselves; `volatile` in the output
  std::vector<Model> checks;      ///< those that hold in every dump; see Model::is_settled()
  Image rest{Image::small_size};  ///< the first dump: what stays as it is, and where settings stood
  Addresses still;                ///< RAM bytes that are the same in every dump
  std::vector<Contradiction> contradictions;
  std::vector<Mistake> mistakes;    ///< dumps that were left out, by their number in the session
  std::vector<std::string> silent;  ///< settings that no bit followed
  std::vector<std::string> notes;
  std::vector<std::string> next;  ///< what to do next in the machine, a sentence each
  bool complete = true;           ///< false when the search for checks was stopped
};

/// Separates what changes by itself, the check bytes, and the bits of each setting. `question`
/// narrows the search for checks; checks of a layout that is known to fit may be given instead.
/// `mixed`: further good dumps of the machine with several settings changed at once, which tell of
/// checks and counts only. `hidden` bytes belong to a password and are passed over
/// (layout/privacy.h); ascending. Refuses (Error) a session that cannot say anything, with what is
/// missing.
Trace trace(const std::vector<Step>& steps, const Question& question,
            const std::vector<Check>& known_checks, const Watch& watch = {},
            std::span<const Image> mixed = {}, const Addresses& hidden = {});

}  // namespace rtcmend
