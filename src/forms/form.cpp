#include "forms/form.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "forms/clean_text.h"
#include "forms/form_table.h"
#include "forms/sizes.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

std::vector<std::string> names_of(std::span<const Form> some) {
  std::vector<std::string> names;
  for (const Form form : some) names.emplace_back(name(form));
  return names;
}

Dump read_as(Form form, std::string_view content, const std::string& where,
             const ReadingOptions& options) {
  const FormEntry& entry = entry_of(form);
  if (!entry.text) return entry.read(content, where, options);
  return entry.read(clean_text(content, where), where, options);
}

[[noreturn]] void refuse_unknown_form(std::string_view content, const std::string& where) {
  refuse(
      where,
      fmt::format("its form is not clear, and {} bytes are not the size of a raw dump",
                  content.size()),
      {{fmt::format("Name one of {}; raw has 64 or 128 bytes, or 50 or 114", list_of_forms(", ")),
        Act{Act::Kind::choose, "form", {}}}});
}

[[noreturn]] void refuse_unsure(const std::vector<Form>& candidates, const std::string& where) {
  const std::string list = join(names_of(candidates), " or ");
  refuse(where, fmt::format("it may be {}, and they give different bytes", list),
         {{"Name the one that it is", Act{Act::Kind::choose, "form", list}}});
}

/// Reads a content that several forms claim. A form of text that fails is not passed over in
/// silence for raw, which takes anything: more likely the text has a mistake.
Dump read_unsure(const std::vector<Form>& candidates, std::string_view content,
                 const std::string& where, const ReadingOptions& options) {
  std::vector<Dump> dumps;
  std::vector<Error> errors;
  for (const Form form : candidates) {
    try {
      dumps.push_back(read_as(form, content, where, options));
    } catch (const Error& error) {
      errors.push_back(error);
    }
  }
  const bool likeliest_failed = dumps.empty() || dumps.front().form != candidates.front();
  if (likeliest_failed) {
    const Error& error = errors.front();
    Advice advice = error.advice();
    if (!dumps.empty())
      advice.add({fmt::format("Or take it as {}", name(dumps.front().form)),
                  Act{Act::Kind::choose, "form", std::string(name(dumps.front().form))}});
    throw Error(error.refusal(), error.where(), error.message(), advice, error.excerpt());
  }
  for (const Dump& dump : dumps)
    if (dump.image != dumps.front().image) refuse_unsure(candidates, where);
  return dumps.front();
}

}  // namespace

std::string_view name(Form form) {
  return entry_of(form).name;
}

Form form_named(std::string_view wanted) {
  std::vector<std::string> all;
  for (const FormEntry& entry : form_table()) {
    if (entry.name == wanted) return entry.form;
    all.emplace_back(entry.name);
  }
  const std::vector<std::string> near = nearest(wanted, all);
  refuse("form", fmt::format("{} is no form of a dump", in_quotes(wanted)),
         near.empty()
             ? "the forms are " + join(all, ", ")
             : fmt::format("perhaps {}; the forms are {}", join(near, " or "), join(all, ", ")));
}

std::span<const Form> all_forms() {
  static const std::vector<Form> all = [] {
    std::vector<Form> forms;
    for (const FormEntry& entry : form_table()) forms.push_back(entry.form);
    return forms;
  }();
  return all;
}

Dump read_dump(std::string_view content, const std::string& where, const ReadingOptions& options) {
  if (content.empty()) refuse(where, "it is empty");
  if (options.form) return read_as(*options.form, content, where, options);
  const std::vector<Form> candidates = detect(content);
  if (candidates.empty()) refuse_unknown_form(content, where);
  if (candidates.size() == 1) return read_as(candidates.front(), content, where, options);
  return read_unsure(candidates, content, where, options);
}

Dump read_dump(std::string_view content, const std::string& where, std::optional<Form> form) {
  ReadingOptions options;
  options.form = form;
  return read_dump(content, where, options);
}

std::string write_dump(const Image& image, Form form, const WriteOptions& options) {
  return entry_of(form).write(image, options);
}

}  // namespace rtcmend
