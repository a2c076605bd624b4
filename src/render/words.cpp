#include "render/words.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

namespace {

std::size_t count(const std::vector<Finding>& findings, Severity severity) {
  return static_cast<std::size_t>(
      std::count_if(findings.begin(), findings.end(),
                    [&](const Finding& f) { return f.severity() == severity; }));
}

std::string running_words(const ClockReading& clock) {
  if (!clock.running) return "running or not: unknown";
  return *clock.running ? "running" : "NOT running";
}

std::string time_words(const ClockReading& clock) {
  if (!clock.known) return "date and time unknown";
  if (!clock.time) {
    const std::string why = clock.faults.empty() ? "" : ": " + clock.faults.front().what;
    return "no legal date and time" + why;
  }
  std::string words = to_iso(*clock.time);
  words[words.find('T')] = ' ';
  if (clock.weekday) words += fmt::format(", {}", weekday_name(*clock.weekday));
  return clock.century_assumed ? words + " (century assumed)" : words;
}

}  // namespace

std::string verdict(const Standing& standing, const std::vector<Finding>& findings) {
  std::vector<std::string> counts;
  for (const auto& [severity, noun] :
       {std::pair{Severity::fault, "fault"}, std::pair{Severity::doubt, "doubt"},
        std::pair{Severity::note, "note"}})
    if (const auto found = count(findings, severity)) counts.push_back(counted(found, noun));
  const std::string sentence = verdict_sentence(standing);
  return counts.empty() ? sentence : sentence + " (" + join(counts, ", ") + ")";
}

std::string dump_words(const Dump& dump, const Layout& layout) {
  std::string words = fmt::format("{}, {} bytes", name(dump.form), dump.image.size());
  if (layout.size < dump.image.size())
    words += fmt::format(", of which the layout uses the first {} and leaves the rest as it is",
                         layout.size);
  if (const Addresses unknown = dump.image.unknown(); !unknown.empty())
    words += fmt::format("; {} of them unknown ({})", unknown.size(), to_text(unknown));
  return words;
}

std::string from_a_file(const Layout& layout) {
  return layout.files.empty() ? std::string()
                              : fmt::format(" (from {}, not built in)", layout.files.front());
}

std::string whose_word(const Layout& layout) {
  const std::string from = from_a_file(layout);
  return from.empty() ? from : "By the layout " + layout.id + from + ".";
}

std::string layout_words(const Layout& layout) {
  return layout.id + ": " + layout.title + from_a_file(layout);
}

std::string odds_words(double odds) {
  if (odds > 0.99) return ">99 %";
  return odds < 0.01 ? "<1 %" : fmt::format("{:.0f} %", odds * 100);
}

std::string clock_words(const ClockReading& clock) {
  return time_words(clock) + "; " + running_words(clock);
}

}  // namespace rtcmend
