#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace rtcmend {

/// How much a finding weighs.
enum class Severity {
  fault,  ///< impossible, or a check that does not hold: the image is not sound
  doubt,  ///< possible, but look at it
  note,   ///< worth knowing
};

/// "fault", "doubt", "note".
std::string_view name(Severity severity);

/// What a finding is about.
enum class Family {
  reading,   ///< how the bytes came out of the chip; belongs to the dump as it was read
  chip,      ///< what the registers say of the chip
  clock,     ///< date, time, alarm
  settings,  ///< the RAM bytes, by the layout
  part       ///< what a named part changes
};

inline constexpr std::array all_families = {Family::reading, Family::chip, Family::clock,
                                            Family::settings, Family::part};

/// What a finding does to the standing of an image (judge/standing.h).
enum class Effect {
  none,
  misread,   ///< the dump is not what the chip holds
  doubted,   ///< it may be misread: nothing is written from it unless somebody insists
  broken,    ///< the settings are not what the firmware left
  unproven,  ///< nothing says that the settings are right
  unset,     ///< the clock must be set
  stopped    ///< the clock stands still
};

/// Everything that can be noticed about a dump. To add a kind: name it here and give it a line in
/// the table below; where its family is new, the compiler names every place that must know it.
enum class FindingKind : std::uint8_t {
  dump_all_ff,
  dump_all_00,
  dump_one_value,
  address_line_stuck,
  halves_mirrored,
  shifted,
  nibbles_swapped,
  bits_reversed,
  data_bit_stuck,
  data_bit_absent,
  unstable_reads,
  text_column_differs,
  misread_before,
  sealed_before,
  cell_flat,
  reserved_bits_set,
  updating,
  daylight_saving,
  oscillator_off,
  oscillator_held,
  clock_frozen,
  clock_unknown,
  clock_byte_illegal,
  clock_byte_other_mode,
  clock_mode_other,
  clock_date_impossible,
  alarm_byte_illegal,
  alarm_byte_leftover,
  weekday_wrong,
  century_assumed,
  century_illegal,
  century_implausible,
  check_mismatch,
  check_unknown,
  blank,
  ram_cleared,
  no_check,
  field_illegal,
  field_unlisted,
  field_untried,
  escape_missing,
  escape_leftover,
  diagnostic_flag,
  relation_broken,
  memory_found_differs,
  floppies_disagree,
  base_memory_odd,
  extended_memory_tiny,
  display_keyboard_off,
  disk_not_entered,
  part_too_small,
  part_larger,
  part_century_clash,
  part_ram_cleared,
  part_ram_clear,
  part_ships_stopped,
  part_trickle_charger,
  part_bare,
  part_valid_by_reading,
  part_counts_otherwise,
  part_daylight_saving
};

/// A line of the table of kinds.
struct KindOfFinding {
  FindingKind kind;
  std::string_view id;  ///< stable, for machines: "check-mismatch"
  Severity severity;
  Family family;
  Effect effect;
  std::string_view meaning;  ///< a line, without a full stop
};

inline constexpr std::array finding_kinds = {
    KindOfFinding{FindingKind::dump_all_ff, "dump-all-ff", Severity::fault, Family::reading,
                  Effect::misread, "every byte is FFh: nothing answered"},
    KindOfFinding{FindingKind::dump_all_00, "dump-all-00", Severity::fault, Family::reading,
                  Effect::misread, "every byte is 00h: the bus was held low"},
    KindOfFinding{FindingKind::dump_one_value, "dump-one-value", Severity::fault, Family::reading,
                  Effect::misread, "every byte is the same: one address was read over and over"},
    KindOfFinding{FindingKind::address_line_stuck, "address-line-stuck", Severity::fault,
                  Family::reading, Effect::misread,
                  "two halves of the addresses read the same bytes"},
    KindOfFinding{FindingKind::halves_mirrored, "halves-mirrored", Severity::note, Family::reading,
                  Effect::none, "a part of 64 bytes was read as if it had 128"},
    KindOfFinding{FindingKind::shifted, "shifted", Severity::fault, Family::reading,
                  Effect::misread, "every byte stands some addresses from where it belongs"},
    KindOfFinding{FindingKind::nibbles_swapped, "nibbles-swapped", Severity::fault, Family::reading,
                  Effect::misread, "the two hex digits of every byte are swapped"},
    KindOfFinding{FindingKind::bits_reversed, "bits-reversed", Severity::fault, Family::reading,
                  Effect::misread, "the bits of every byte stand in the reverse order"},
    KindOfFinding{FindingKind::data_bit_stuck, "data-bit-stuck", Severity::fault, Family::reading,
                  Effect::misread, "one bit is the same in every byte"},
    KindOfFinding{FindingKind::data_bit_absent, "data-bit-absent", Severity::doubt, Family::reading,
                  Effect::doubted,
                  "one bit is 0 in every byte, and no check says that this is right"},
    KindOfFinding{FindingKind::unstable_reads, "unstable-reads", Severity::fault, Family::reading,
                  Effect::misread, "two dumps of the same chip differ where nothing ticks"},
    KindOfFinding{FindingKind::text_column_differs, "text-column-differs", Severity::doubt,
                  Family::reading, Effect::none,
                  "the text beside a listing's digits shows another byte than they do"},
    KindOfFinding{FindingKind::misread_before, "misread-before", Severity::fault, Family::reading,
                  Effect::misread, "the file says itself that its bytes come from a misread dump"},
    KindOfFinding{
        FindingKind::sealed_before, "sealed-before", Severity::fault, Family::reading,
        Effect::unproven,
        "the file says itself that its checks were made to hold over what nothing proved"},
    KindOfFinding{FindingKind::cell_flat, "cell-flat", Severity::fault, Family::chip, Effect::none,
                  "the chip reports that its cell was flat or absent"},
    KindOfFinding{FindingKind::reserved_bits_set, "reserved-bits-set", Severity::doubt,
                  Family::chip, Effect::none, "bits are set that the chip always reads as 0"},
    KindOfFinding{FindingKind::updating, "updating", Severity::note, Family::chip, Effect::none,
                  "an update of the time was under way when the dump was taken"},
    KindOfFinding{FindingKind::daylight_saving, "daylight-saving", Severity::doubt, Family::chip,
                  Effect::none, "the chip changes the hour by a rule that is out of force"},
    KindOfFinding{FindingKind::oscillator_off, "oscillator-off", Severity::fault, Family::clock,
                  Effect::stopped, "the oscillator is off"},
    KindOfFinding{FindingKind::oscillator_held, "oscillator-held", Severity::fault, Family::clock,
                  Effect::stopped, "the oscillator's countdown chain is held in reset"},
    KindOfFinding{FindingKind::clock_frozen, "clock-frozen", Severity::fault, Family::clock,
                  Effect::stopped, "SET is on: the time bytes are frozen"},
    KindOfFinding{FindingKind::clock_unknown, "clock-unknown", Severity::note, Family::clock,
                  Effect::unset, "the dump does not hold all of the clock's bytes"},
    KindOfFinding{FindingKind::clock_byte_illegal, "clock-byte-illegal", Severity::fault,
                  Family::clock, Effect::unset, "a byte of the time is out of its range"},
    KindOfFinding{FindingKind::clock_byte_other_mode, "clock-byte-other-mode", Severity::doubt,
                  Family::clock, Effect::unset,
                  "a byte of the time is right as PC firmware reads it, not as register B has it"},
    KindOfFinding{FindingKind::clock_mode_other, "clock-mode-other", Severity::doubt, Family::clock,
                  Effect::none, "the chip counts otherwise than PC firmware reads it"},
    KindOfFinding{FindingKind::clock_date_impossible, "clock-date-impossible", Severity::doubt,
                  Family::clock, Effect::unset,
                  "a byte of the date is out of its range, or the month has no such day"},
    KindOfFinding{FindingKind::alarm_byte_illegal, "alarm-byte-illegal", Severity::doubt,
                  Family::clock, Effect::none,
                  "a byte of the alarm is out of its range, and it is "
                  "on"},
    KindOfFinding{FindingKind::alarm_byte_leftover, "alarm-byte-leftover", Severity::note,
                  Family::clock, Effect::none,
                  "a byte of the alarm is out of its range, and it is "
                  "off"},
    KindOfFinding{FindingKind::weekday_wrong, "weekday-wrong", Severity::note, Family::clock,
                  Effect::none, "the weekday is not that of the date, or none"},
    KindOfFinding{FindingKind::century_assumed, "century-assumed", Severity::note, Family::clock,
                  Effect::none, "no century is stored"},
    KindOfFinding{FindingKind::century_illegal, "century-illegal", Severity::doubt, Family::clock,
                  Effect::none, "the century byte is not BCD"},
    KindOfFinding{FindingKind::century_implausible, "century-implausible", Severity::doubt,
                  Family::clock, Effect::none, "the century makes no sense for a PC"},
    KindOfFinding{FindingKind::check_mismatch, "check-mismatch", Severity::fault, Family::settings,
                  Effect::broken, "a check does not hold"},
    KindOfFinding{FindingKind::check_unknown, "check-unknown", Severity::fault, Family::settings,
                  Effect::unproven, "a check cannot be judged, because bytes are unknown"},
    KindOfFinding{FindingKind::blank, "blank", Severity::fault, Family::settings, Effect::broken,
                  "the covered bytes are all the same: they hold no configuration"},
    KindOfFinding{FindingKind::ram_cleared, "ram-cleared", Severity::fault, Family::settings,
                  Effect::broken, "every RAM byte is FFh while the clock makes sense"},
    KindOfFinding{FindingKind::no_check, "no-check", Severity::note, Family::settings,
                  Effect::unproven, "nothing in this layout proves that the RAM is right"},
    KindOfFinding{FindingKind::field_illegal, "field-illegal", Severity::fault, Family::settings,
                  Effect::broken, "a field holds a value that means nothing"},
    KindOfFinding{FindingKind::field_unlisted, "field-unlisted", Severity::doubt, Family::settings,
                  Effect::none, "a check that holds vouches for a code that no list here has"},
    KindOfFinding{FindingKind::field_untried, "field-untried", Severity::doubt, Family::settings,
                  Effect::none, "a field holds a value that nobody has seen there before"},
    KindOfFinding{FindingKind::escape_missing, "escape-missing", Severity::fault, Family::settings,
                  Effect::broken, "a field sends its reader to a byte that holds nothing for it"},
    KindOfFinding{FindingKind::escape_leftover, "escape-leftover", Severity::note, Family::settings,
                  Effect::none, "a byte that its field does not use still holds something"},
    KindOfFinding{FindingKind::diagnostic_flag, "diagnostic-flag", Severity::doubt,
                  Family::settings, Effect::none, "the firmware noted a fault at its last start"},
    KindOfFinding{FindingKind::relation_broken, "relation-broken", Severity::doubt,
                  Family::settings, Effect::none, "a field does not say what others make it"},
    KindOfFinding{FindingKind::memory_found_differs, "memory-found-differs", Severity::doubt,
                  Family::settings, Effect::none,
                  "the memory found at start is not the memory configured"},
    KindOfFinding{FindingKind::floppies_disagree, "floppies-disagree", Severity::note,
                  Family::settings, Effect::none,
                  "the equipment byte does not agree with the floppy types"},
    KindOfFinding{FindingKind::base_memory_odd, "base-memory-odd", Severity::doubt,
                  Family::settings, Effect::none,
                  "the base memory is none that memory chips come to"},
    KindOfFinding{FindingKind::extended_memory_tiny, "extended-memory-tiny", Severity::doubt,
                  Family::settings, Effect::none,
                  "the extended memory is less than one block of it"},
    KindOfFinding{FindingKind::display_keyboard_off, "display-keyboard-off", Severity::doubt,
                  Family::settings, Effect::none, "neither display nor keyboard is enabled"},
    KindOfFinding{FindingKind::disk_not_entered, "disk-not-entered", Severity::doubt,
                  Family::settings, Effect::none,
                  "a disk's type says that it is entered by hand, and it is not"},
    KindOfFinding{FindingKind::part_too_small, "part-too-small", Severity::fault, Family::part,
                  Effect::none, "the part has fewer bytes than the layout uses"},
    KindOfFinding{FindingKind::part_larger, "part-larger", Severity::note, Family::part,
                  Effect::none, "the part has more bytes than the layout uses"},
    KindOfFinding{FindingKind::part_century_clash, "part-century-clash", Severity::doubt,
                  Family::part, Effect::none,
                  "the part counts the century where the layout keeps "
                  "something else"},
    KindOfFinding{FindingKind::part_ram_cleared, "part-ram-cleared", Severity::doubt, Family::part,
                  Effect::none, "the RAM looks as this part's RAM-clear input leaves it"},
    KindOfFinding{FindingKind::part_ram_clear, "part-ram-clear", Severity::note, Family::part,
                  Effect::none, "the part has a RAM-clear input"},
    KindOfFinding{FindingKind::part_ships_stopped, "part-ships-stopped", Severity::note,
                  Family::part, Effect::none, "a new part has its oscillator off"},
    KindOfFinding{FindingKind::part_trickle_charger, "part-trickle-charger", Severity::doubt,
                  Family::part, Effect::none, "the part charges its cell"},
    KindOfFinding{FindingKind::part_bare, "part-bare", Severity::note, Family::part, Effect::none,
                  "the part forgets everything out of its socket"},
    KindOfFinding{FindingKind::part_valid_by_reading, "part-valid-by-reading", Severity::note,
                  Family::part, Effect::none, "reading the part hides that its cell was flat"},
    KindOfFinding{FindingKind::part_counts_otherwise, "part-counts-otherwise", Severity::note,
                  Family::part, Effect::none,
                  "the part counts with divider bits that stop the others"},
    KindOfFinding{FindingKind::part_daylight_saving, "part-daylight-saving", Severity::note,
                  Family::part, Effect::none, "when the part's daylight saving begins"},
};

/// Whether every kind stands at its own place.
consteval bool kinds_are_in_order() {
  for (std::size_t i = 0; i < finding_kinds.size(); ++i)
    if (static_cast<std::size_t>(finding_kinds[i].kind) != i) return false;
  return true;
}
static_assert(finding_kinds.size() ==
              static_cast<std::size_t>(FindingKind::part_daylight_saving) + 1);
static_assert(kinds_are_in_order());

constexpr const KindOfFinding& kind_of(FindingKind kind) {
  return finding_kinds[static_cast<std::size_t>(kind)];
}

/// The kind with this id; nothing when there is none.
std::optional<FindingKind> finding_kind_named(std::string_view id);

}  // namespace rtcmend
