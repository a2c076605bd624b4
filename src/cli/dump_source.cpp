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

Judged::Judged(const DumpSource& source)
    : opened(open_dump(source)),
      examination(examine_whole(opened.dump.image, opened.layout,
                                [this] { return std::span(layouts_about(opened.dump.image)); })) {}

std::vector<std::string> inputs_of(const DumpSource& source) {
  std::vector<std::string> inputs;
  if (source.path != "-") inputs.push_back(source.path);
  if (!source.layout.empty()) inputs.push_back(source.layout);
  return inputs;
}

}  // namespace rtcmend
