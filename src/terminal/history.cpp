#include "terminal/history.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "render/words.h"
#include "terminal/columns.h"
#include "terminal/shell_word.h"

namespace rtcmend {

namespace {

constexpr std::size_t text_column = 14;

std::string day(const DateTime& date) {
  return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

std::string verdict_words(const HistoryEntry& entry, const Ink& ink) {
  if (!entry.item.problem.empty()) return ink(Tone::doubtful, "not read");
  if (entry.item.is_note()) return "note";
  const Tone tone = entry.sound ? Tone::good : entry.is_good() ? Tone::doubtful : Tone::bad;
  return ink(tone, verdict_sentence(entry.standing));
}

/// A file of the folder, as a shell takes it.
std::string shell_path(const HistorySource& source, const std::string& name) {
  return shell_word(source.folder + (source.folder.ends_with('/') ? "" : "/") + name);
}

std::string under(std::string_view text) {
  return std::string(text_column, ' ') + hanging(text, text_column) + "\n";
}

std::string note_text(const HistoryEntry& entry) {
  std::string text;
  for (const std::string_view line : lines(entry.item.note))
    if (!trim(line).empty()) text += under(trim(line));
  return text;
}

std::string changes_text(const HistoryEntry& entry) {
  if (!entry.since) return {};
  if (entry.changes.empty() && entry.other_bytes.empty()) return under("nothing changed");
  std::string text;
  for (const SettingChange& change : entry.changes)
    text += under(fmt::format("{}: {} -> {}", change.id, change.before, change.after));
  if (!entry.other_bytes.empty())
    text += under("bytes of no setting: " + to_prose(entry.other_bytes));
  return text;
}

/// The likeliest repair, and how to see all of them: weighed once more by the same good dump.
std::string suspect_text(const HistoryEntry& entry, const History& history,
                         const HistorySource& source) {
  if (entry.suspects.empty()) return {};
  const Suspect& first = entry.suspects.front();
  const std::string likeliest =
      fmt::format("likeliest repair, {}: {}", odds_words(first.odds), first.text);
  const std::string text =
      under(first.odds < 0.5 ? "no small repair is likelier than not" : likeliest);
  std::string all = "rtcmend verify " + shell_path(source, entry.item.name);
  if (!source.layout.empty()) all += " --layout " + shell_word(source.layout);
  if (entry.weighed_with)
    all += " --before " + shell_path(source, history.entries[*entry.weighed_with].item.name);
  return text + under("see all suspects:") + std::string(text_column, ' ') + all + "\n";
}

std::string entry_text(const HistoryEntry& entry, const History& history,
                       const HistorySource& source, const Ink& ink) {
  std::string text = fmt::format("  {}  {}  {}{}\n", day(entry.item.date),
                                 printable(entry.item.name), verdict_words(entry, ink),
                                 entry.item.dated_by_name ? "" : " (dated by its file)");
  if (!entry.item.problem.empty()) text += under(entry.item.problem);
  for (const Finding& fault : entry.faults) text += under(fault.text);
  return text + suspect_text(entry, history, source) + note_text(entry) + changes_text(entry);
}

std::string conclusion(const History& history, const HistorySource& source, const Ink& ink) {
  if (!history.last_good)
    return ink(Tone::bad, "No sound image is among them.") +
           "\nTry: rtcmend compose, from what is fitted in the machine.\n";
  const HistoryItem& item = history.entries[*history.last_good].item;
  return fmt::format("{}: {}, {}.\n",
                     ink(Tone::good, history.latest_is_good ? "Last good image, and the latest"
                                                            : "Last good image"),
                     printable(item.name), day(item.date)) +
         fmt::format("Start from it: rtcmend show {}\n", shell_path(source, item.name));
}

}  // namespace

std::string history_text(const History& history, const HistorySource& source, const Layout& layout,
                         const Ink& ink) {
  const auto count = [&](auto which) {
    return static_cast<std::size_t>(
        std::count_if(history.entries.begin(), history.entries.end(), which));
  };
  std::string text = fmt::format(
      "{}: {}, {}; layout {}\n\n", ink(Tone::strong, printable(source.folder)),
      counted(count([](const HistoryEntry& e) { return e.item.image.has_value(); }), "dump"),
      counted(count([](const HistoryEntry& e) { return e.item.is_note(); }), "note"),
      printable(layout.id + from_a_file(layout)));
  for (const HistoryEntry& entry : history.entries) text += entry_text(entry, history, source, ink);
  return text + "\n" + conclusion(history, source, ink);
}

}  // namespace rtcmend
