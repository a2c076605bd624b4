#include <algorithm>
#include <array>

#include "base/error.h"
#include "base/near_miss.h"
#include "base/text.h"
#include "deliver/delivery.h"

namespace rtcmend {

namespace {

constexpr std::array ways{Way::boot_floppy, Way::dos_program, Way::debugger_script,
                          Way::basic_listing, Way::keyboard_program};
constexpr std::array<std::string_view, 5> way_names{"boot-floppy", "dos-program", "debugger-script",
                                                    "basic-listing", "keyboard-program"};
constexpr std::array<std::string_view, 3> policy_names{"keep", "image", "ask"};
constexpr std::array<std::string_view, 4> format_names{"360K", "720K", "1.2M", "1.44M"};

/// Where a name stands in a table of names; refuses one that is not there.
std::size_t position(std::span<const std::string_view> names, std::string_view name,
                     const char* choice) {
  for (std::size_t i = 0; i < names.size(); ++i)
    if (names[i] == name) return i;
  std::vector<std::string> known(names.begin(), names.end());
  refuse_choice(choice, "there is no " + printable(name), near_or_all(name, known));
}

}  // namespace

std::string_view name(Way way) {
  return way_names.at(static_cast<std::size_t>(way));
}

Way way_named(std::string_view name) {
  return ways.at(position(way_names, name, "as"));
}

std::span<const Way> all_ways() {
  return ways;
}

std::string_view name(ClockPolicy policy) {
  return policy_names.at(static_cast<std::size_t>(policy));
}

ClockPolicy clock_policy_named(std::string_view name) {
  return static_cast<ClockPolicy>(position(policy_names, name, "clock"));
}

std::string_view name(DiskFormat format) {
  return format_names.at(static_cast<std::size_t>(format));
}

std::optional<DiskFormat> disk_format_of(std::string_view name) {
  const auto found = std::ranges::find_if(
      format_names, [&](std::string_view known) { return lower(known) == lower(name); });
  if (found == format_names.end()) return std::nullopt;
  return static_cast<DiskFormat>(found - format_names.begin());
}

DiskFormat disk_format_named(std::string_view name) {
  if (const auto format = disk_format_of(name)) return *format;
  return static_cast<DiskFormat>(position(format_names, name, "disk"));
}

}  // namespace rtcmend
