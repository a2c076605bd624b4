#include "discover/trace.h"

#include <algorithm>
#include <fmt/format.h>
#include <optional>

#include "base/error.h"
#include "base/files.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/layout_file.h"
#include "cli/patience.h"
#include "cli/print.h"
#include "cli/search_options.h"
#include "cli/session_keeping.h"
#include "identify/identify.h"
#include "layout/privacy.h"
#include "render/trace_json.h"
#include "terminal/heading.h"
#include "terminal/trace.h"

namespace rtcmend {

namespace {

struct TraceOptions {
  std::string session;             ///< or new, add, undo
  std::vector<std::string> words;  ///< behind those
  std::vector<std::string> steps, idle, mixed;
  std::string layout, form;
  std::string into, output;
  bool force = false;
  SearchOptions search;
  Voice voice;
};

SessionFile gather_session(const TraceOptions& given) {
  SessionFile session;
  if (!given.session.empty()) {
    session = parse_session(read_whole(given.session), given.session);
    for (SessionEntry& entry : session.entries)
      entry.dump = file_named_in(given.session, entry.dump);
    for (std::string& dump : session.mixed) dump = file_named_in(given.session, dump);
  }
  for (const std::string& path : given.idle) session.entries.push_back({"", "", path});
  session.mixed.insert(session.mixed.end(), given.mixed.begin(), given.mixed.end());
  for (const std::string& step : given.steps) session.entries.push_back(parse_step(step));
  if (session.entries.empty())
    refuse("trace", "there is neither a session file nor a step",
           "rtcmend trace --step floppy_b=none:dump0.bin --step floppy_b=1.44M:dump1.bin");
  return session;
}

std::vector<Step> read_steps(const SessionFile& session, const std::string& form) {
  std::vector<Step> steps;
  for (const SessionEntry& entry : session.entries)
    steps.push_back(
        {entry.setting, entry.value, entry.dump, read_dump_from(entry.dump, form).image});
  return steps;
}

/// What is known of the machine before the session says more.
struct Known {
  std::optional<Layout> layout;  ///< whose checks are known to fit
  std::string earlier_text;
  std::optional<Layout> earlier;  ///< a draft to add to
};

Known known_before(const TraceOptions& given, const SessionFile& session) {
  Known known;
  if (!given.layout.empty())
    known.layout = layout_named(given.layout);
  else if (!session.layout.empty())
    known.layout = layout_named_in(given.session, session.layout);
  if (given.into.empty()) return known;
  known.earlier_text = read_whole(given.into);
  known.earlier = layout_from_file(given.into);
  return known;
}

/// A password's bytes, as far as any layout knows of them: a named one, the earlier draft, and the
/// one that the dumps clearly speak for.
Addresses passwords(const Known& known, const Image& image) {
  Addresses hidden;
  const auto add = [&](const Layout& layout) {
    const Addresses more = private_bytes(layout);
    hidden.insert(hidden.end(), more.begin(), more.end());
  };
  if (known.layout) add(*known.layout);
  if (known.earlier) add(*known.earlier);
  if (const auto clear = recognise(image)) add(*clear);
  std::ranges::sort(hidden);
  hidden.erase(std::unique(hidden.begin(), hidden.end()), hidden.end());
  return hidden;
}

std::vector<Image> read_mixed(const SessionFile& session, const std::string& form) {
  std::vector<Image> images;
  for (const std::string& path : session.mixed) images.push_back(read_dump_from(path, form).image);
  return images;
}

Trace search(const std::vector<Step>& steps, const Question& question, const Known& known,
             const std::vector<Image>& mixed) {
  Patience patience;
  const auto checks = known.layout ? known.layout->checks : std::vector<Check>{};
  const Addresses hidden = steps.empty() ? Addresses{} : passwords(known, steps.front().image);
  return trace(steps, question, checks, patience.watch(), mixed, hidden);
}

Draft merged(const TraceOptions& given, const Known& known, const Draft& draft,
             const std::vector<Step>& steps) {
  if (!known.earlier) return draft;
  std::vector<Image> dumps;
  for (const Step& step : steps) dumps.push_back(step.image);
  return merge_draft({known.earlier_text, given.into, *known.earlier}, draft, dumps);
}

WriteRules rules_for(const TraceOptions& given, const SessionFile& session, const Known& known) {
  WriteRules rules{given.force, {given.session, given.into, given.layout}};
  for (const SessionEntry& entry : session.entries) rules.inputs.add(entry.dump);
  rules.inputs.add(session.mixed);
  if (known.layout) rules.inputs.add(known.layout->files);
  if (known.earlier) rules.inputs.add(known.earlier->files);
  return rules;
}

void write_draft(const TraceOptions& given, const WriteRules& rules, const Draft& draft) {
  write_whole(given.output, printable_json(draft.layout.dump(2)) + "\n", rules);
}

std::string written(const std::string& output) {
  if (output.empty()) return "No draft was written: -o FILE says where it goes.\n";
  if (output == "-") return "";
  return fmt::format("Wrote the draft layout {}.\n", printable(output));
}

int trace_session(const TraceOptions& given) {
  const SessionFile session = gather_session(given);
  const Known known = known_before(given, session);
  const WriteRules rules = rules_for(given, session, known);
  if (!given.output.empty()) check_output(given.output, rules);  // before the long search
  const std::vector<Step> steps = read_steps(session, given.form);
  const Trace found =
      search(steps, question_from(given.search), known, read_mixed(session, given.form));
  const Draft draft = merged(given, known, draft_layout(found), steps);
  if (!given.output.empty()) write_draft(given, rules, draft);

  const std::string text = given.voice.json ? to_line(trace_json(found, draft)) + "\n"
                                            : layout_mark(known.layout) +
                                                  trace_text(found, draft, given.voice.ink()) +
                                                  written(given.output);
  if (given.output == "-")
    print_aside(text);
  else
    print(text);
  const bool clean = found.contradictions.empty() && found.mistakes.empty() && found.complete;
  return clean ? exit_good : exit_bad;
}

}  // namespace

Action set_up_trace(Options& options) {
  auto given = std::make_shared<TraceOptions>();
  options.optional_word(
      given->session, "SESSION",
      "a JSON file: steps with label, value and dump; no label = nothing changed. Or: new SESSION "
      "begins one, add SESSION DUMP SETTING=VALUE notes a dump and what was changed for it "
      "(nothing, "
      "one setting or several), undo SESSION takes the last one back");
  options.optional_words(given->words, "WORD", "what stands behind new, add and undo");
  options.values(given->steps, "--step", "SETTING=VALUE:DUMP",
                 "a dump taken with this setting at this value; may be repeated");
  options.values(given->idle, "--idle", "DUMP",
                 "a dump taken with nothing changed; may be repeated");
  options.values(
      given->mixed, "--mixed", "DUMP",
      "a good dump with several settings changed at once, for the check; may be repeated");
  options.value(given->layout, "--layout", "ID|FILE", "a layout whose checks are known to fit");
  options.value(given->form, "--form", "FORM", "how the dumps are written; detected when left out");
  options.value(given->into, "--into", "FILE", "an earlier draft to add to");
  options.value(given->output, "-o,--output", "FILE", "where the draft layout goes");
  options.flag(given->force, "--force", "replace an existing file");
  add_search(options, given->search);
  add_voice(options, given->voice);
  options.example("rtcmend trace new session.json");
  options.example("rtcmend trace add session.json dump3.bin floppy_b=1.44M");
  options.example("rtcmend trace session.json -o draft.json");
  options.example(
      "rtcmend trace --step floppy_b=none:dump0.bin --step floppy_b=1.44M:dump1.bin -o draft.json");
  return [given] {
    if (is_session_act(given->session))
      return keep_session(
          {given->session, given->words, given->layout, given->form, given->force, given->voice});
    if (!given->words.empty())
      refuse("trace", fmt::format("\"{}\" is one word too many", printable(given->words.front())),
             "rtcmend trace SESSION -o draft.json");
    return trace_session(*given);
  };
}

}  // namespace rtcmend
