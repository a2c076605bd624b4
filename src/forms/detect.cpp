#include <algorithm>

#include "base/error.h"
#include "forms/clean_text.h"
#include "forms/form.h"
#include "forms/form_table.h"
#include "forms/plain_text.h"
#include "forms/sizes.h"

namespace rtcmend {

namespace {

/// The form whose marks the text shows; those with the strictest are asked first.
const FormEntry* marked_form(std::string_view text) {
  const Sketch sketch = sketch_of(text);
  const FormEntry* best = nullptr;
  for (const FormEntry& entry : form_table()) {
    if (entry.shows == nullptr || (best != nullptr && best->asked < entry.asked)) continue;
    if (entry.shows(sketch)) best = &entry;
  }
  return best;
}

/// Letters beyond ASCII are text, but a text is not made of them.
bool is_text(std::string_view content) {
  const auto ascii = std::count_if(content.begin(), content.end(),
                                   [](char c) { return static_cast<unsigned char>(c) < 0x80; });
  return is_plain_text(content) && static_cast<std::size_t>(ascii) * 2 >= content.size();
}

}  // namespace

std::vector<Form> detect(std::string_view content) {
  const bool sized = is_dump_size(content.size());
  // Nearly every raw dump holds a zero byte, and every reader of text refuses one.
  if (sized && content.find('\0') != std::string_view::npos) return {Form::raw};
  const std::string clean = clean_text(content, "");
  const bool text = is_text(clean);
  if (!text && !sized && clean.find('\0') != std::string::npos) return {Form::raw};
  const FormEntry* marked = marked_form(clean);
  if (!sized) {
    if (marked != nullptr) return {marked->form};
    return text ? std::vector<Form>{} : std::vector<Form>{Form::raw};
  }
  if (marked == nullptr) return {Form::raw};
  if (!text) return {Form::raw, marked->form};
  return marked->leaves_doubt ? std::vector<Form>{marked->form, Form::raw}
                              : std::vector<Form>{marked->form};
}

}  // namespace rtcmend
