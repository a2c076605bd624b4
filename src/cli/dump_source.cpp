#include "cli/dump_source.h"

#include "base/error.h"
#include "base/files.h"
#include "cli/layout_file.h"

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

void add_again(Options& options, DumpSource& source) {
  options.value(source.again, "--again", "DUMP2",
                "a second dump of the same chip: says which bytes were not read steadily");
}

std::string spoken_name(const std::string& path) {
  return path == "-" ? "standard input" : path;
}

std::optional<Form> given_form(const std::string& option, const std::string& name) {
  if (name.empty()) return std::nullopt;
  try {
    return form_named(name);
  } catch (const Error& error) {
    refuse(option, error.message(), error.advice());
  }
}

Dump read_dump_from(const std::string& path, const std::string& form) {
  // The form is looked up first: a mistyped one shall not wait for standard input.
  const auto given = given_form("--form", form);
  return read_dump(read_whole(path), spoken_name(path), given);
}

std::optional<Layout> given_layout(const std::string& id_or_file) {
  if (id_or_file.empty()) return std::nullopt;
  return layout_named(id_or_file);
}

Opened open_dump(const DumpSource& source) {
  Dump dump = read_dump_from(source.path, source.form);
  ReadingOrder order;
  order.layout = given_layout(source.layout);
  if (!source.again.empty()) order.again = read_dump_from(source.again, "").image;
  return open_dump(std::move(dump), spoken_name(source.path), order, Shelf());
}

std::vector<std::string> inputs_of(const DumpSource& source) {
  std::vector<std::string> inputs;
  if (source.path != "-") inputs.push_back(source.path);
  for (const std::string& name : {source.layout, source.again})
    if (!name.empty()) inputs.push_back(name);
  return inputs;
}

}  // namespace rtcmend
