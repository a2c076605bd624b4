#include "forms/form_table.h"

#include <fmt/format.h>

#include "base/text.h"
#include "forms/c_array.h"
#include "forms/code_text.h"
#include "forms/hex.h"
#include "forms/intel_hex.h"
#include "forms/json.h"
#include "forms/raw.h"
#include "forms/rows.h"
#include "forms/s_record.h"

namespace rtcmend {

namespace {

using Reader = Found (*)(std::string_view, const std::string&, const ReadingOptions&);

/// A reader of bytes, as a reader of dumps in one form.
template <Form form, Reader reader>
Dump read(std::string_view content, const std::string& where, const ReadingOptions& options) {
  Found found = reader(content, where, options);
  return {std::move(found.image),   form, {},    {},
          std::move(found.remarks), {},   false, std::move(found.text)};
}

Dump read_own_json(std::string_view content, const std::string& where, const ReadingOptions&) {
  return read_json(content, where);
}

template <std::string (*writer)(const Image&)>
std::string write(const Image& image, const WriteOptions&) {
  return writer(image);
}

template <std::string (*writer)(const Image&, std::optional<std::uint8_t>)>
std::string write_filled(const Image& image, const WriteOptions& options) {
  return writer(image, options.fill);
}

std::string write_own_json(const Image& image, const WriteOptions& options) {
  return write_json(image, options);
}

// clang-format off
constexpr FormEntry table[] = {
    {Form::raw, "raw", "raw bytes", "the bytes as they are, 64 or 128, alone or within a bigger file",
     ".bin", {".bin", ".raw"}, false, false, 7, nullptr, false,
     read<Form::raw, read_raw>, write_filled<write_raw>},
    {Form::hex, "hex", "hex listing", "a listing of any style: bytes or words, hex or other, arrays, base64",
     ".txt", {}, true, true, 6, shows_hex, true,
     read<Form::hex, read_hex>, write<write_hex>},
    {Form::rows, "rows", "rows with a check", "rows of 16 with a code, as the reading programs print them",
     ".rows", {".txt", ".rows"}, true, true, 4, shows_rows, false,
     read<Form::rows, read_rows>, write<write_rows>},
    {Form::code_text, "code-text", "what a code says", "what a QR code of the chip says, one or two texts",
     ".txt", {}, true, true, 0, shows_code_text, false,
     read<Form::code_text, read_code_text>, write<write_code_text>},
    {Form::intel_hex, "intel-hex", "Intel HEX", "Intel HEX records",
     ".hex", {".hex", ".ihx"}, true, false, 2, shows_intel_hex, false,
     read<Form::intel_hex, read_intel_hex>, write<write_intel_hex>},
    {Form::s_record, "s-record", "S-records", "Motorola S-records",
     ".srec", {".srec", ".s19"}, true, false, 3, shows_s_record, false,
     read<Form::s_record, read_s_record>, write<write_s_record>},
    {Form::c_array, "c-array", "C array", "an array in C, values between braces",
     ".h", {".h", ".c"}, true, false, 5, shows_c_array, false,
     read<Form::c_array, read_c_array>, write_filled<write_c_array>},
    {Form::json, "json", "JSON", "the project's own JSON, which keeps layout and note",
     ".json", {".json"}, true, true, 1, shows_json, false,
     read_own_json, write_own_json},
};
// clang-format on

}  // namespace

std::span<const FormEntry> form_table() {
  return table;
}

const FormEntry& entry_of(Form form) {
  for (const FormEntry& entry : table)
    if (entry.form == form) return entry;
  return table[0];
}

std::string list_of_forms(std::string_view before_last) {
  std::string text;
  const std::size_t count = std::size(table);
  for (std::size_t i = 0; i < count; ++i)
    text += fmt::format("{}{}",
                        i == 0           ? std::string_view{}
                        : i + 1 == count ? before_last
                                         : ", ",
                        table[i].name);
  return text;
}

std::string list_of_endings() {
  std::string text;
  for (const FormEntry& entry : table)
    if (!entry.endings.front().empty())
      text += fmt::format("{}{}", text.empty() ? "" : " ", entry.endings.front());
  return text;
}

std::optional<Form> form_of_name(std::string_view path) {
  const std::string plain = lower(path);
  for (const FormEntry& entry : table)
    for (const std::string_view ending : entry.endings)
      if (!ending.empty() && plain.ends_with(ending)) return entry.form;
  return std::nullopt;
}

}  // namespace rtcmend
