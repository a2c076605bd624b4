#include "forms/form.h"

#include <array>
#include <fmt/format.h>
#include <utility>

#include "base/error.h"
#include "base/text.h"
#include "forms/c_array.h"
#include "forms/hex.h"
#include "forms/intel_hex.h"
#include "forms/json.h"
#include "forms/raw.h"
#include "forms/rows.h"
#include "forms/s_record.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

constexpr std::array forms{Form::raw,      Form::hex,     Form::rows, Form::intel_hex,
                           Form::s_record, Form::c_array, Form::json};

std::vector<std::string> names_of(std::span<const Form> some) {
  std::vector<std::string> names;
  for (const Form form : some) names.emplace_back(name(form));
  return names;
}

Dump read_as(Form form, std::string_view content, const std::string& where) {
  switch (form) {
    case Form::raw:
      return {read_raw(content, where), form, {}, {}};
    case Form::hex:
      return {read_hex(content, where), form, {}, {}};
    case Form::rows:
      return {read_rows(content, where), form, {}, {}};
    case Form::intel_hex:
      return {read_intel_hex(content, where), form, {}, {}};
    case Form::s_record:
      return {read_s_record(content, where), form, {}, {}};
    case Form::c_array:
      return {read_c_array(content, where), form, {}, {}};
    case Form::json:
      break;
  }
  return read_json(content, where);
}

[[noreturn]] void refuse_unknown_form(std::string_view content, const std::string& where) {
  refuse(where,
         fmt::format("its form is not clear, and {} bytes are not the size of a raw dump",
                     content.size()),
         fmt::format("--form with one of {}; raw has 64 or 128 bytes, or 50 or 114",
                     join(names_of(forms), ", ")));
}

[[noreturn]] void refuse_unsure(const std::vector<Form>& candidates, const std::string& where) {
  const std::string list = join(names_of(candidates), " or ");
  refuse(where, fmt::format("it may be {}, and they give different bytes", list),
         fmt::format("give --form {}", list));
}

/// Reads a content that several forms claim. A form of text that fails is not passed over in
/// silence for raw, which takes anything: more likely the text has a mistake.
Dump read_unsure(const std::vector<Form>& candidates, std::string_view content,
                 const std::string& where) {
  std::vector<Dump> dumps;
  std::vector<Error> errors;
  for (const Form form : candidates) {
    try {
      dumps.push_back(read_as(form, content, where));
    } catch (const Error& error) {
      errors.push_back(error);
    }
  }
  const bool likeliest_failed = dumps.empty() || dumps.front().form != candidates.front();
  if (likeliest_failed) {
    const Error& error = errors.front();
    const std::string raw =
        dumps.empty() ? "" : fmt::format("--form {} takes it as it is", name(dumps.front().form));
    const std::string between = error.remedy().empty() || raw.empty() ? "" : "; or ";
    throw Error(error.refusal(), error.where(), error.message(), error.remedy() + between + raw);
  }
  for (const Dump& dump : dumps)
    if (dump.image != dumps.front().image) refuse_unsure(candidates, where);
  return dumps.front();
}

}  // namespace

std::string_view name(Form form) {
  switch (form) {
    case Form::raw:
      return "raw";
    case Form::hex:
      return "hex";
    case Form::rows:
      return "rows";
    case Form::intel_hex:
      return "intel-hex";
    case Form::s_record:
      return "s-record";
    case Form::c_array:
      return "c-array";
    case Form::json:
      break;
  }
  return "json";
}

Form form_named(std::string_view wanted) {
  for (const Form form : forms)
    if (name(form) == wanted) return form;
  const std::vector<std::string> all = names_of(forms);
  const std::vector<std::string> near = nearest(wanted, all);
  refuse("form", fmt::format("{} is no form of a dump", in_quotes(wanted)),
         near.empty()
             ? "the forms are " + join(all, ", ")
             : fmt::format("perhaps {}; the forms are {}", join(near, " or "), join(all, ", ")));
}

std::span<const Form> all_forms() {
  return forms;
}

Dump read_dump(std::string_view content, const std::string& where, std::optional<Form> form) {
  if (content.empty()) refuse(where, "it is empty");
  if (form) return read_as(*form, content, where);
  const std::vector<Form> candidates = detect(content);
  if (candidates.empty()) refuse_unknown_form(content, where);
  if (candidates.size() == 1) return read_as(candidates.front(), content, where);
  return read_unsure(candidates, content, where);
}

std::string write_dump(const Image& image, Form form, const WriteOptions& options) {
  switch (form) {
    case Form::raw:
      return write_raw(image, options.fill);
    case Form::hex:
      return write_hex(image);
    case Form::rows:
      return write_rows(image);
    case Form::intel_hex:
      return write_intel_hex(image);
    case Form::s_record:
      return write_s_record(image);
    case Form::c_array:
      return write_c_array(image, options.fill);
    case Form::json:
      break;
  }
  return write_json(image, options);
}

}  // namespace rtcmend
