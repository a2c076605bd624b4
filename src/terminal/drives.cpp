#include "terminal/drives.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "layout/codec.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

/// "21.4 MB", in millions of bytes as disks are sold.
std::string megabytes(std::uint64_t bytes) {
  return fmt::format("{:.1f} MB", static_cast<double>(bytes) / 1e6);
}

std::string disk_words(const Disk& disk) {
  std::string size = fmt::format("{} ({:.1f} MiB)", megabytes(disk.capacity),
                                 static_cast<double>(disk.capacity) / 1048576.0);
  if (!disk.geometry) return size;
  const auto number = [](int count, std::string_view noun) {
    return counted(static_cast<std::size_t>(count), noun);
  };
  return fmt::format("{}, {}, {} a track: {}", number(disk.geometry->cylinders, "cylinder"),
                     number(disk.geometry->heads, "head"), number(disk.geometry->sectors, "sector"),
                     size);
}

std::string table_name(const DriveCard& card) {
  return card.advice.common_table ? "the common table" : "the table of " + card.layout->id;
}

/// First cylinder with precompensation, as set-up screens and tables tell it.
std::string precompensation(const DriveType& type) {
  if (!type.write_precompensation) return "none";
  return *type.write_precompensation == 0 ? "all" : fmt::format("{}", *type.write_precompensation);
}

std::string row(const DriveMatch& match, const Ink& ink) {
  const DriveType& type = match.type;
  const std::string fit = fmt::format("{:<6}", name(match.fit));
  return fmt::format("  {:>3}{} {:>9} {:>6} {:>8} {:>9} {:>8} {:>10}  {} {:>9}\n", type.type,
                     match.unsure ? '*' : ' ', type.cylinders, type.heads, type.sectors,
                     precompensation(type), type.landing_zone, megabytes(match.capacity),
                     match.fit == Fit::exact ? ink(Tone::good, fit) : fit,
                     match.lost == 0 ? "-" : megabytes(match.lost));
}

std::string rows(const DriveAdvice& advice, std::size_t most, const Ink& ink) {
  std::string text = fmt::format("  {:>4} {:>9} {:>6} {:>8} {:>9} {:>8} {:>10}  {:<6} {:>9}\n",
                                 "type", "cylinders", "heads", "sectors", "precomp.", "landing",
                                 "capacity", "fit", "lost");
  const std::size_t shown = std::min(most, advice.matches.size());
  for (std::size_t i = 0; i < shown; ++i) text += row(advice.matches[i], ink);
  if (shown < advice.matches.size())
    text += fmt::format("  and {} more that lose as much or more: --all shows them\n",
                        advice.matches.size() - shown);
  return text;
}

std::string paragraph(std::string_view text) {
  return hanging(text, 0) + "\n";
}

std::string legend(const DriveAdvice& advice, std::size_t most) {
  std::string text = paragraph(
      "exact: the same shape. inside: smaller, so that it never runs past the disk's end. precomp. "
      "is the first cylinder written with precompensation, landing the cylinder where the heads "
      "rest. 1 MB is 1,000,000 bytes.");
  const auto end =
      advice.matches.begin() + static_cast<std::ptrdiff_t>(std::min(most, advice.matches.size()));
  if (std::any_of(advice.matches.begin(), end,
                  [](const DriveMatch& match) { return match.unsure; }))
    text +=
        paragraph(fmt::format("* From type {} up each firmware has its own table: hold these "
                              "numbers against the machine's set-up before you trust one.",
                              first_unsure_type));
  return text;
}

/// "--set a=1 --set b=2" over as many lines as it takes, none broken inside.
std::string set_options(const ByHand& block, const Layout& layout) {
  std::string text;
  std::size_t column = page_width;
  for (const Setting& setting : block.settings) {
    const std::string option = fmt::format(
        "--set {}={}", setting.field, to_text(layout.need_field(setting.field), setting.value));
    if (column + 1 + option.size() > page_width) {
      text += text.empty() ? "    " : "\n    ";
      column = 4 + option.size();
    } else {
      text += ' ';
      column += 1 + option.size();
    }
    text += option;
  }
  return text;
}

std::string by_hand_text(const ByHand& block, const Layout& layout) {
  if (!block.problem.empty())
    return "  " +
           hanging(fmt::format("{}: it does not go in ({})", block.label, block.problem), 4) + "\n";
  std::string text =
      fmt::format("  {}, for \"rtcmend amend\":\n{}\n", block.label, set_options(block, layout));
  if (!block.type) text += "    and as its type the one that this firmware calls user-defined.\n";
  return text;
}

std::string by_hand(const DriveCard& card, const Ink& ink) {
  if (card.advice.by_hand.empty()) return {};
  std::string text = "\n" + ink(Tone::strong, "By hand") +
                     fmt::format(": {} has a place for a disk's own numbers\n", card.layout->id);
  for (const ByHand& block : card.advice.by_hand) text += by_hand_text(block, *card.layout);
  return text + "  " + hanging("Precompensation and landing zone: as the disk's maker says.", 2) +
         "\n";
}

}  // namespace

std::string drives_text(const DriveCard& card, std::size_t most, const Ink& ink) {
  std::string text = fmt::format("{} {}\n", ink(Tone::strong, "Disk:"), disk_words(card.disk));
  if (card.advice.matches.empty())
    text += paragraph(
        fmt::format("No type of {} fits: each would run past the disk's end.", table_name(card)));
  else
    text += fmt::format("Types of {} that it can be used with\n{}\n{}", table_name(card),
                        rows(card.advice, most, ink), legend(card.advice, most));
  return text + by_hand(card, ink);
}

}  // namespace rtcmend
