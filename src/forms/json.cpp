#include "forms/json.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "base/json.h"
#include "base/text.h"
#include "forms/row_text.h"
#include "forms/sizes.h"
#include "forms/source_lines.h"

namespace rtcmend {

using nlohmann::json;

namespace {

constexpr int version = 1;

/// The object that is read, and what messages call it.
struct Reader {
  json object;
  std::string where;

  [[noreturn]] void fail(const std::string& path, const std::string& what,
                         const std::string& remedy = {}) const {
    refuse(json_place(where, path), what, remedy);
  }
  const json& member(const std::string& key) const {
    const auto found = object.find(key);
    if (found == object.end()) fail("", fmt::format("the key \"{}\" is missing", key));
    return *found;
  }
};

void check_keys(const Reader& reader) {
  if (!reader.object.is_object()) reader.fail("", "a dump in JSON is one object in braces");
  const std::vector<std::string> known{"rtcmend", "size",          "layout", "note",
                                       "misread", "sealed_anyway", "bytes"};
  for (const auto& [key, value] : reader.object.items()) {
    if (std::find(known.begin(), known.end(), key) != known.end()) continue;
    const auto near = nearest(key, known, 1);
    reader.fail("", fmt::format("the key {} means nothing here", in_quotes(key)),
                near.empty() ? "the keys are " + join(known, ", ")
                             : fmt::format("perhaps \"{}\"", near.front()));
  }
}

std::int64_t number(const Reader& reader, const std::string& key) {
  const json& value = reader.member(key);
  if (!value.is_number_integer()) reader.fail("/" + key, "a whole number is wanted here");
  return value.get<std::int64_t>();
}

std::string text(const Reader& reader, const std::string& key) {
  if (!reader.object.contains(key)) return {};
  const json& value = reader.member(key);
  if (!value.is_string()) reader.fail("/" + key, "a text in quotes is wanted here");
  return value.get<std::string>();
}

std::vector<std::string> texts(const Reader& reader, const std::string& key) {
  if (!reader.object.contains(key)) return {};
  const json& list = reader.member(key);
  if (!list.is_array()) reader.fail("/" + key, "a list of texts in brackets is wanted here");
  std::vector<std::string> all;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (!list[i].is_string())
      reader.fail(fmt::format("/{}/{}", key, i), "a text in quotes is wanted here");
    all.push_back(list[i].get<std::string>());
  }
  return all;
}

DumpByte byte(const Reader& reader, const std::string& path, const std::string& word) {
  if (word == "??") return std::nullopt;
  const auto value = word.size() == 2 ? parse_hex(word, 0xFF) : std::nullopt;
  if (!value)
    reader.fail(path, fmt::format("{} is not a byte", in_quotes(word)),
                "a byte is two hex digits, or ?? when it is unknown");
  return static_cast<std::uint8_t>(*value);
}

std::vector<DumpByte> row(const Reader& reader, const json& value, const std::string& path) {
  if (!value.is_string()) reader.fail(path, "a row of bytes in quotes is wanted here");
  std::vector<DumpByte> bytes;
  for (const std::string& word : split(value.get<std::string>(), ' '))
    if (!word.empty()) bytes.push_back(byte(reader, path, word));
  if (bytes.size() != bytes_a_row)
    reader.fail(path, fmt::format("a row has 16 bytes, this one {}", bytes.size()));
  return bytes;
}

Image image(const Reader& reader) {
  const std::int64_t size = number(reader, "size");
  if (size != Image::small_size && size != Image::large_size)
    reader.fail("/size", fmt::format("a clock chip holds 64 or 128 bytes, not {}", size));
  Image image(static_cast<std::size_t>(size));
  const json& rows = reader.member("bytes");
  if (!rows.is_array()) reader.fail("/bytes", "a list of rows in brackets is wanted here");
  if (rows.size() * bytes_a_row != image.size())
    reader.fail("/bytes", fmt::format("{} bytes are {} rows, here are {}", image.size(),
                                      image.size() / bytes_a_row, rows.size()));
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::vector<DumpByte> bytes = row(reader, rows[i], fmt::format("/bytes/{}", i));
    for (std::size_t column = 0; column < bytes_a_row; ++column)
      if (bytes[column]) image.set(static_cast<Address>(i * bytes_a_row + column), *bytes[column]);
  }
  return image;
}

}  // namespace

Dump read_json(std::string_view content, const std::string& where) {
  const Reader reader{parse_json(content, where), where};
  check_keys(reader);
  const std::int64_t found = number(reader, "rtcmend");
  if (found != version)
    reader.fail("/rtcmend", fmt::format("version {} of this form is not known, only 1", found));
  return {
      image(reader),        Form::json, text(reader, "layout"),
      text(reader, "note"), {},         {texts(reader, "misread"), texts(reader, "sealed_anyway")}};
}

std::string write_json(const Image& image, const WriteOptions& options) {
  nlohmann::ordered_json object;
  object["rtcmend"] = version;
  object["size"] = image.size();
  if (!options.layout.empty()) object["layout"] = options.layout;
  if (!options.note.empty()) object["note"] = options.note;
  const Confession& confession = options.confession;
  if (!confession.misread.empty()) object["misread"] = confession.misread;
  if (!confession.sealed_anyway.empty()) object["sealed_anyway"] = confession.sealed_anyway;
  for (std::size_t at = 0; at < image.size(); at += bytes_a_row)
    object["bytes"].push_back(row_text(image, static_cast<Address>(at)));
  return printable_json(object.dump(2, ' ', false, json::error_handler_t::replace)) + "\n";
}

}  // namespace rtcmend
