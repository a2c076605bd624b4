#include "make/drives.h"

#include <algorithm>
#include <fmt/format.h>
#include <tuple>

#include "base/error.h"
#include "base/text.h"
#include "layout/codec.h"
#include "layout/library.h"

namespace rtcmend {

namespace {

constexpr int bytes_in_sector = 512;

Geometry geometry_of(const DriveType& type) {
  return {type.cylinders, type.heads, type.sectors};
}

void check_count(int count, int most, const char* choice, const char* noun) {
  if (count < 1 || count > most)
    refuse_choice(choice, fmt::format("{} is not a number of {}", count, noun),
                  fmt::format("1 to {}", most));
}

std::optional<Fit> fit_of(const Disk& disk, const DriveType& type) {
  if (!disk.geometry) {
    if (capacity(type) > disk.capacity) return std::nullopt;
    return capacity(type) == disk.capacity ? Fit::exact : Fit::inside;
  }
  const Geometry& whole = *disk.geometry;
  if (geometry_of(type) == whole) return Fit::exact;
  const bool inside = type.cylinders <= whole.cylinders && type.heads <= whole.heads &&
                      type.sectors <= whole.sectors;
  return inside ? std::optional(Fit::inside) : std::nullopt;
}

std::vector<DriveMatch> matches_in(const std::vector<DriveType>& table, const Disk& disk,
                                   bool is_common) {
  std::vector<DriveMatch> matches;
  for (const DriveType& type : table)
    if (const auto fit = fit_of(disk, type))
      matches.push_back({type, *fit, capacity(type), disk.capacity - capacity(type),
                         is_common && type.type >= first_unsure_type});
  // A capacity alone says little of the shape: of those that waste little, types that practically
  // all firmware shares are likelier to be meant than the tail of a table.
  const auto rank = [&](const DriveMatch& match) {
    const bool wasteful = !disk.geometry && match.lost * 10 > disk.capacity;
    return std::tuple(match.fit, wasteful, !disk.geometry && match.unsure, match.lost,
                      match.type.type);
  };
  std::sort(matches.begin(), matches.end(),
            [&](const DriveMatch& a, const DriveMatch& b) { return rank(a) < rank(b); });
  return matches;
}

/// What the block can be told of this disk. Without precompensation: nothing is known of it. The
/// heads rest behind the last cylinder.
std::vector<Setting> parameters(const Layout& layout, const std::string& prefix,
                                const Geometry& disk) {
  std::vector<Setting> settings;
  const auto add = [&](const char* name, std::int64_t value) {
    const std::string id = prefix + name;
    if (layout.field(id) != nullptr) settings.push_back({id, value});
  };
  add("cylinders", disk.cylinders);
  add("heads", disk.heads);
  add("sectors", disk.sectors);
  add("landing_zone", disk.cylinders);
  return settings;
}

/// The type that turns the block on: the block's fields count only while the type's other byte
/// holds it.
std::optional<std::int64_t> type_that_uses(const Field& block, const Field& type) {
  constexpr std::int64_t usual = 47;  // common practice, and measured on most images
  if (!type.escape) return std::nullopt;
  for (const UsedWhile& condition : block.when) {
    if (condition.bits.at != type.escape->at) continue;
    const bool has_usual = usual >= condition.least && usual <= condition.most;
    return has_usual ? usual : condition.least;
  }
  return std::nullopt;
}

std::string first_problem(const Layout& layout, const std::vector<Setting>& settings) {
  for (const Setting& setting : settings)
    if (const std::string why = illegal_because(layout.need_field(setting.field), setting.value);
        !why.empty())
      return setting.field + ": " + why;
  return {};
}

std::vector<ByHand> blocks_in(const Layout& layout, const Geometry& disk) {
  std::vector<ByHand> blocks;
  for (const auto& [number, label] : {std::pair("0", "first disk"), {"1", "second disk"}}) {
    const std::string prefix = fmt::format("disk_{}_", number);
    const Field* block = layout.field(prefix + "cylinders");
    const Field* type = layout.field(prefix + "type");
    if (block == nullptr || type == nullptr) continue;
    ByHand by_hand{label, type_that_uses(*block, *type), parameters(layout, prefix, disk), {}};
    if (by_hand.type) by_hand.settings.insert(by_hand.settings.begin(), {type->id, *by_hand.type});
    by_hand.problem = first_problem(layout, by_hand.settings);
    blocks.push_back(std::move(by_hand));
  }
  return blocks;
}

}  // namespace

std::uint64_t capacity(const Geometry& geometry) {
  return static_cast<std::uint64_t>(geometry.cylinders) *
         static_cast<std::uint64_t>(geometry.heads) * static_cast<std::uint64_t>(geometry.sectors) *
         bytes_in_sector;
}

std::uint64_t capacity(const DriveType& type) {
  return capacity(geometry_of(type));
}

std::string_view name(Fit fit) {
  return fit == Fit::exact ? "exact" : "inside";
}

Disk disk_of(const Geometry& geometry) {
  check_count(geometry.cylinders, 65535, "cylinders", "cylinders");
  check_count(geometry.heads, 255, "heads", "heads");
  check_count(geometry.sectors, 255, "sectors", "sectors a track");
  return {geometry, capacity(geometry)};
}

Disk disk_of_capacity(std::uint64_t bytes) {
  return {std::nullopt, bytes};
}

namespace {

/// Common practice, and measured (layouts/traits/disks-by-hand).
bool is_by_hand(int type) {
  return type >= 46 && type <= 49;
}

const std::vector<DriveType>& table_of(const Layout* layout) {
  const bool has_own = layout != nullptr && !layout->drive_types.empty();
  return has_own ? layout->drive_types : common_drive_types();
}

}  // namespace

DriveType drive_type_numbered(int number, const Layout* layout) {
  const auto& table = table_of(layout);
  const auto found = std::find_if(table.begin(), table.end(),
                                  [=](const DriveType& type) { return type.type == number; });
  if (found != table.end()) return *found;
  std::vector<std::string> known;
  for (const DriveType& type : table) known.push_back(fmt::format("{}", type.type));
  refuse_choice(
      "type",
      fmt::format("{} has no type {}",
                  layout != nullptr && !layout->drive_types.empty() ? "the table of " + layout->id
                                                                    : "the common table",
                  number),
      is_by_hand(number) ? "46 to 49 mostly stand for a disk whose numbers are entered by hand"
                         : "it has " + join(known, ", "));
}

DriveAdvice advise_on_drive(const Disk& disk, const Layout* layout) {
  if (layout != nullptr && layout->field("disk_0_type") == nullptr)
    refuse(layout->id, "it keeps no fixed-disk type");
  DriveAdvice advice;
  advice.common_table = layout == nullptr || layout->drive_types.empty();
  advice.matches = matches_in(table_of(layout), disk, advice.common_table);
  if (layout != nullptr && disk.geometry) advice.by_hand = blocks_in(*layout, *disk.geometry);
  return advice;
}

}  // namespace rtcmend
