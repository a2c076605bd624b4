#include "cli/dump_source.h"

#include "base/error.h"
#include "base/files.h"
#include "cli/layout_choice.h"
#include "judge/health.h"

namespace rtcmend {

void add_reading(Options& options, DumpSource& source) {
  options.value(
      source.form, "--form", "FORM",
      "how the dump is written down: raw, hex, rows, intel-hex, s-record, c-array or json; "
      "detected when left out");
  options.value(source.layout, "--layout", "ID|FILE",
                "the layout to read it by; identified when left out");
}

void add_dump(Options& options, DumpSource& source) {
  options.word(source.path, "DUMP", "the dump; - is standard input");
  add_reading(options, source);
}

std::string spoken_name(const std::string& path) {
  return path == "-" ? "standard input" : path;
}

std::optional<Form> given_form(const std::string& option, const std::string& name) {
  if (name.empty()) return std::nullopt;
  try {
    return form_named(name);
  } catch (const Error& error) {
    refuse(option, error.message(), error.remedy());
  }
}

Dump read_dump_from(const std::string& path, const std::string& form) {
  // The form is looked up first: a mistyped one shall not wait for standard input.
  const auto given = given_form("--form", form);
  return read_dump(read_whole(path), spoken_name(path), given);
}

Opened open_dump(const DumpSource& source) {
  Dump dump = read_dump_from(source.path, source.form);
  Layout layout = layout_for(dump, spoken_name(source.path), source.layout);
  return {spoken_name(source.path), std::move(dump), std::move(layout)};
}

namespace {

/// Faults of the reading. A sound image needs no other layouts to vouch for it.
std::vector<Finding> reading_faults(const Opened& opened, const Examination& examination) {
  std::vector<Layout> layouts;
  if (!examination.sound) layouts = all_layouts();
  layouts.push_back(opened.layout);
  return health(opened.dump.image, layouts);
}

Examination judge(const Opened& opened) {
  Examination examination = examine(opened.dump.image, opened.layout);
  const std::vector<Finding> faults = reading_faults(opened, examination);
  return with_findings(std::move(examination), faults);
}

}  // namespace

Judged::Judged(const DumpSource& source) : opened(open_dump(source)), examination(judge(opened)) {}

std::vector<std::string> inputs_of(const DumpSource& source) {
  std::vector<std::string> inputs;
  if (source.path != "-") inputs.push_back(source.path);
  if (!source.layout.empty()) inputs.push_back(source.layout);
  return inputs;
}

}  // namespace rtcmend
