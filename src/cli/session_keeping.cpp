#include "cli/session_keeping.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <fmt/format.h>
#include <map>

#include "base/error.h"
#include "base/files.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/layout_file.h"
#include "discover/session.h"
#include "terminal/columns.h"
#include "terminal/shell_word.h"

namespace rtcmend {

namespace {

namespace fs = std::filesystem;

constexpr std::array<std::string_view, 3> acts = {"new", "add", "undo"};

Changed changed_in(const std::vector<std::string>& words) {
  Changed changed;
  for (const std::string& word : words) {
    const auto equals = word.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == word.size())
      refuse("trace add", fmt::format("\"{}\" is not SETTING=VALUE", printable(word)),
             "rtcmend trace add SESSION DUMP floppy_b=1.44M");
    changed.emplace_back(word.substr(0, equals), word.substr(equals + 1));
  }
  return changed;
}

/// The dump's name as the session says it: in its folder or below.
std::string name_beside(const std::string& session, const std::string& dump) {
  const fs::path folder = fs::absolute(session).lexically_normal().parent_path();
  const fs::path name = fs::absolute(dump).lexically_normal().lexically_relative(folder);
  return file_named_in(session, name.generic_string()).empty() ? "" : name.generic_string();
}

/// What was dumped so far.
struct Tally {
  std::size_t dumps = 0;
  std::size_t idle = 0;                                    ///< with nothing changed
  std::map<std::string, std::map<std::string, int>> seen;  ///< by setting: how often each value
};

Tally tally_of(const SessionFile& session) {
  Tally tally;
  tally.dumps = session.entries.size() + session.mixed.size();
  for (const SessionEntry& entry : session.entries) {
    if (entry.setting.empty())
      ++tally.idle;
    else
      ++tally.seen[entry.setting][entry.value];
  }
  return tally;
}

std::string tally_text(const Tally& tally, std::size_t mixed) {
  std::string text = fmt::format(
      "The session has {} dump{}: {} with nothing changed, {} with several settings changed.\n",
      tally.dumps, tally.dumps == 1 ? "" : "s", tally.idle, mixed);
  for (const auto& [setting, values] : tally.seen) {
    std::vector<std::string> counts;
    for (const auto& [value, count] : values)
      counts.push_back(fmt::format("{} {}", printable(value),
                                   count == 1 ? "once" : fmt::format("{} times", count)));
    text += "  " + hanging(fmt::format("{}: {}", printable(setting), join(counts, ", ")), 4) + "\n";
  }
  return text;
}

/// The one thing to do next, by what the session lacks. The same value twice is what tells a
/// setting from what moves by itself.
std::string next_step(const Tally& tally, const std::string& session) {
  if (tally.idle < 3)
    return "Next: start the machine with nothing changed and take a dump, until there are three: "
           "what they show moving moves by itself.";
  for (const auto& [setting, values] : tally.seen) {
    if (values.size() == 1)
      return fmt::format(
          "Next: set {} to another value: it was seen at {} only, and one value tells nothing.",
          printable(setting), printable(values.begin()->first));
    for (const auto& [value, count] : values)
      if (count == 1)
        return fmt::format("Next: set {} to {} once more: the same value twice is what tells.",
                           printable(setting), printable(value));
  }
  if (tally.seen.empty())
    return "Next: change one setting, save, start the machine and take a dump.";
  return fmt::format("Next: rtcmend trace {} says what is found so far, and what would tell most.",
                     shell_word(session));
}

void tell(const SessionOrder& order, const std::string& done, const std::string& session_text) {
  const SessionFile session = parse_session(session_text, order.words[0]);
  const Tally tally = tally_of(session);
  print(done + "\n" + tally_text(tally, session.mixed.size()) +
        hanging(next_step(tally, order.words[0]), 2) + "\n");
}

int begin(const SessionOrder& order) {
  const WriteRules rules{order.force, {}};
  if (!order.layout.empty()) layout_named(order.layout);  // refused now, not after an evening
  const std::string text = new_session(order.layout);
  write_whole(order.words[0], text, rules);
  tell(order, fmt::format("Began {}.", printable(order.words[0])), text);
  return exit_good;
}

/// A dump of another size is of another chip.
void need_same_size(const SessionOrder& order, const std::string& text, const Image& image) {
  const SessionFile session = parse_session(text, order.words[0]);
  std::vector<std::string> dumps = session.mixed;
  for (const SessionEntry& entry : session.entries) dumps.push_back(entry.dump);
  if (dumps.empty()) return;
  const std::string first = file_named_in(order.words[0], dumps.front());
  const Image other = read_dump_from(first, order.form).image;
  if (other.size() != image.size())
    refuse(order.words[1],
           fmt::format("it holds {} bytes, and {} holds {}", image.size(), first, other.size()),
           "dumps of one session are of one chip");
}

int add(const SessionOrder& order) {
  const std::string& session = order.words[0];
  const Changed changed = changed_in({order.words.begin() + 2, order.words.end()});
  const std::string text = read_whole(session);
  const Image image = read_dump_from(order.words[1], order.form).image;
  need_same_size(order, text, image);
  const std::string longer =
      with_step(text, session, changed, name_beside(session, order.words[1]));
  write_whole(session, longer, {true, Inputs{order.words[1]}});
  tell(order, fmt::format("Added {}.", printable(order.words[1])), longer);
  return exit_good;
}

int undo(const SessionOrder& order) {
  const auto [shorter, dump] = without_last_step(read_whole(order.words[0]), order.words[0]);
  write_whole(order.words[0], shorter, {true, {}});
  tell(order, fmt::format("Took back {}; the file itself is still there.", printable(dump)),
       shorter);
  return exit_good;
}

}  // namespace

bool is_session_act(const std::string& word) {
  return std::ranges::find(acts, word) != acts.end();
}

int keep_session(const SessionOrder& order) {
  if (order.voice.json)
    refuse("--json", "the session file is JSON itself, and there is no other here",
           "rtcmend trace SESSION --json");
  const std::size_t least = order.act == "add" ? 2 : 1;
  if (order.words.size() < least || (order.act != "add" && order.words.size() > 1))
    refuse("trace " + order.act,
           order.act == "add" ? "it takes a session, a dump, and what was changed"
                              : "it takes one session",
           order.act == "add" ? "rtcmend trace add SESSION DUMP floppy_b=1.44M"
                              : "rtcmend trace " + order.act + " SESSION");
  if (order.act == "new") return begin(order);
  return order.act == "add" ? add(order) : undo(order);
}

}  // namespace rtcmend
