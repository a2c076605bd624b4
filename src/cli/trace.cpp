#include "discover/trace.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/files.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/layout_file.h"
#include "cli/patience.h"
#include "cli/print.h"
#include "cli/search_options.h"
#include "render/trace_json.h"
#include "terminal/trace.h"

namespace rtcmend {

namespace {

struct TraceOptions {
  std::string session;
  std::vector<std::string> steps, idle, mixed;
  std::string layout, form;
  std::string into, output;
  bool force = false;
  SearchOptions search;
  Voice voice;
};

// A dump that a session file names stands beside it.
std::string beside(const std::string& session, const std::string& dump) {
  const auto slash = session.rfind('/');
  if (slash == std::string::npos || dump.starts_with('/')) return dump;
  return session.substr(0, slash + 1) + dump;
}

SessionFile gather_session(const TraceOptions& given) {
  SessionFile session;
  if (!given.session.empty()) {
    session = parse_session(read_whole(given.session), given.session);
    for (SessionEntry& entry : session.entries) entry.dump = beside(given.session, entry.dump);
    if (!session.layout.empty() && session.layout.ends_with(".json"))
      session.layout = beside(given.session, session.layout);
  }
  for (const std::string& path : given.idle) session.entries.push_back({"", "", path});
  for (const std::string& step : given.steps) session.entries.push_back(parse_step(step));
  if (session.entries.empty())
    refuse("trace", "there is neither a session file nor a step",
           "rtcmend trace --step floppy_b=none:dump0.bin --step floppy_b=1.44M:dump1.bin");
  if (!given.layout.empty()) session.layout = given.layout;
  return session;
}

std::vector<Step> read_steps(const SessionFile& session, const std::string& form) {
  std::vector<Step> steps;
  for (const SessionEntry& entry : session.entries)
    steps.push_back(
        {entry.setting, entry.value, entry.dump, read_dump_from(entry.dump, form).image});
  return steps;
}

std::vector<Image> read_mixed(const TraceOptions& given) {
  std::vector<Image> images;
  for (const std::string& path : given.mixed)
    images.push_back(read_dump_from(path, given.form).image);
  return images;
}

Trace search(const std::vector<Step>& steps, const Question& question,
             const std::vector<Check>& known, const std::vector<Image>& mixed) {
  Patience patience;
  return trace(steps, question, known, patience.watch(), mixed);
}

Draft merged_into(const std::string& path, const Draft& draft, const std::vector<Step>& steps) {
  const Layout layout = layout_from_file(path);
  const std::string text = read_whole(path);
  std::vector<Image> dumps;
  for (const Step& step : steps) dumps.push_back(step.image);
  return merge_draft({text, path, layout}, draft, dumps);
}

WriteRules rules_for(const TraceOptions& given, const SessionFile& session) {
  WriteRules rules{given.force, {}};
  for (const std::string& path : {given.session, given.into})
    if (!path.empty()) rules.inputs.push_back(path);
  for (const SessionEntry& entry : session.entries) rules.inputs.push_back(entry.dump);
  rules.inputs.insert(rules.inputs.end(), given.mixed.begin(), given.mixed.end());
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
  const WriteRules rules = rules_for(given, session);
  if (!given.output.empty()) check_output(given.output, rules);  // before the long search
  const std::vector<Step> steps = read_steps(session, given.form);
  const std::vector<Check> known =
      session.layout.empty() ? std::vector<Check>{} : layout_named(session.layout).checks;
  const Trace found = search(steps, question_from(given.search), known, read_mixed(given));
  Draft draft = draft_layout(found);
  if (!given.into.empty()) draft = merged_into(given.into, draft, steps);
  if (!given.output.empty()) write_draft(given, rules, draft);

  const std::string text =
      given.voice.json ? to_line(trace_json(found, draft)) + "\n"
                       : trace_text(found, draft, given.voice.ink()) + written(given.output);
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
      "a JSON file: steps with label, value and dump; no label = nothing changed");
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
  options.example("rtcmend trace session.json -o draft.json");
  options.example(
      "rtcmend trace --step floppy_b=none:dump0.bin --step floppy_b=1.44M:dump1.bin -o draft.json");
  return [given] { return trace_session(*given); };
}

}  // namespace rtcmend
