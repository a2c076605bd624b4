#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/advice.h"
#include "base/image.h"
#include "check/check.h"
#include "chip/clock.h"

namespace rtcmend {

/// What carries bytes into the old machine or out of it.
enum class Way { boot_floppy, dos_program, debugger_script, basic_listing, keyboard_program };

/// "boot-floppy" and so on.
std::string_view name(Way way);
/// Refuses (Error) an unknown name with the nearest ones.
Way way_named(std::string_view name);
std::span<const Way> all_ways();

/// What happens to the clock bytes 00h-0Bh and the century.
enum class ClockPolicy {
  keep,   ///< a sound running clock stays; else the way asks for the time, where it can
  image,  ///< the image's time is written
  ask,    ///< the way asks for the time
};

/// "keep", "image", "ask".
std::string_view name(ClockPolicy policy);
/// Refuses another name.
ClockPolicy clock_policy_named(std::string_view name);

/// Formats of floppy disk that the firmware of PCs boots from.
enum class DiskFormat { k360, k720, m1_2, m1_44 };

/// "360K", "720K", "1.2M", "1.44M".
std::string_view name(DiskFormat format);
/// The format of this name, in any case; nothing where there is none.
std::optional<DiskFormat> disk_format_of(std::string_view name);
/// Refuses another name.
DiskFormat disk_format_named(std::string_view name);

/// When the image is written.
enum class Occasion {
  once,       ///< shown, confirmed with a key, written
  when_lost,  ///< only when the chip's checks do not hold; without a key, then a warm restart
};

/// What is to be delivered.
struct Parcel {
  Image image{Image::small_size};
  std::string layout;               ///< id
  std::string title;                ///< of the layout
  std::vector<std::string> fields;  ///< lines to show, "First floppy drive: 1.44M"
  std::vector<Check> checks;        ///< of the layout
  Addresses hidden;                 ///< bytes of a password, ascending: no screen shows them
  ClockPolicy clock = ClockPolicy::keep;
  /// PC firmware reads the clock, which asks for BCD on a 24-hour dial whatever register B says
  /// (RBIL61, INT 1Ah AH = 02h): a time that is not the image's own is written so.
  bool of_a_pc = false;
  std::optional<Address> century;  ///< where the layout keeps it
  DiskFormat disk = DiskFormat::m1_44;
  Occasion occasion = Occasion::once;
  /// The floppy and the DOS program can show what they read back as codes for a phone.
  bool codes = false;
  /// Bytes that the firmware changes by itself and no check covers: written, and not compared by
  /// the small programs.
  Addresses unsteady;
  std::vector<std::string> warnings;     ///< what nobody knows about the machine, told with it
  std::vector<int> running_dividers{2};  ///< values of 0Ah bits 6-4 with which the part counts
};

/// What a way needs to read a chip out.
struct CaptureOrder {
  std::optional<std::size_t> size;  ///< 64 or 128; nothing = the program finds out
  DiskFormat disk = DiskFormat::m1_44;
};

/// The finished carrier, and what a person must know to use it.
struct Delivery {
  std::string content;                ///< of the file: a disk image, a program, or text with CR LF
  std::string sheet;                  ///< for typing it in by hand; empty where nothing is typed
  std::vector<Advice> steps;          ///< what to do, in order
  std::vector<Advice> cautions;       ///< what can go wrong, and what then
  std::size_t keystrokes = 0;         ///< to type it in, line ends included; 0 = not typed
  Addresses left_alone;               ///< bytes of the chip that are not written
  std::uint16_t code = 0;             ///< open_code() of what is written
  std::optional<std::uint16_t> sign;  ///< what the debugger shows in BX when every byte took
};

/// CRC-16/IBM-3740 over the known RAM bytes but a password's, which it would give away: the code
/// that the programs show.
std::uint16_t open_code(const Image& image, const Addresses& hidden);

/// How the clock counts once the parcel's time was set, when that is not how its image has it;
/// nothing where it stays as it is.
std::optional<ClockMode> other_mode(const Parcel& parcel);

/// Makes what writes the image. It is the caller's business that the image is sound. Refuses
/// (Error) what the way cannot do: a clock policy, an occasion.
Delivery deliver(const Parcel& parcel, Way way);

/// Makes what reads the chip. Refuses (Error) a way that cannot.
Delivery capture(const CaptureOrder& order, Way way);

/// How large a way is for 50 RAM bytes, the worst case of its bytes.
struct WayFigures {
  Way way;
  std::size_t bytes = 0;       ///< of the file
  std::size_t keystrokes = 0;  ///< 0 = not typed
  std::size_t least = 0;       ///< keystrokes that no text for this way could do without
  std::string least_because;
};

std::vector<WayFigures> way_figures();
/// What one of those RAM bytes costs to type.
double keystrokes_per_byte(const WayFigures& way);

}  // namespace rtcmend
