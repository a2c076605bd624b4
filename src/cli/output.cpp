#include "cli/output.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/system.h"
#include "base/text.h"
#include "cli/dump_source.h"
#include "forms/form_table.h"

namespace rtcmend {

namespace {

std::optional<std::uint8_t> fill_of(const Output& output) {
  if (output.fill.empty()) return std::nullopt;
  const auto byte = parse_hex(output.fill, 0xFF);
  if (!byte) refuse("--fill", fmt::format("\"{}\" is not a byte", output.fill), "--fill 00, or FF");
  return static_cast<std::uint8_t>(*byte);
}

WriteRules rules(const Output& output, const Inputs& inputs) {
  return {output.force, inputs};
}

void keep_raw_bytes_off_the_terminal(const Output& output, Form form) {
  if (output.path == "-" && form == Form::raw && system::output_is_terminal())
    refuse("-o", "raw bytes would only upset the terminal", "--to hex, or a file name for -o");
}

}  // namespace

void add_output(Options& options, Output& output) {
  options.value(output.path, "-o,--output", "OUT", "where to write; - is standard output");
  options.value(
      output.form, "--to", "FORM",
      "the form to write; when left out, the name's ending tells (" + list_of_endings() + ")");
  options.value(output.fill, "--fill", "HEX",
                "what unknown bytes become in a form that cannot leave them out");
  options.flag(output.force, "--force", "replace OUT when it exists");
}

void check_output(const Output& output, const Inputs& inputs) {
  if (output.path.empty()) refuse("-o", "it is needed, and was not given", "-o new.bin");
  static_cast<void>(given_form("--to", output.form));
  static_cast<void>(fill_of(output));
  check_output(output.path, rules(output, inputs));
}

std::optional<Form> told_form(const Output& output) {
  if (const auto form = given_form("--to", output.form)) return form;
  return form_of_name(output.path);
}

void write_image(const ToWrite& what, const Output& output, const Inputs& inputs) {
  keep_raw_bytes_off_the_terminal(output, what.form);
  const WriteOptions options{fill_of(output), what.layout, what.note, what.confession};
  write_whole(output.path, write_dump(what.image, what.form, options), rules(output, inputs));
}

}  // namespace rtcmend
