#include "page/request.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "desk/likeness.h"
#include "desk/open.h"
#include "judge/health.h"
#include "page/image_text.h"

namespace rtcmend {

std::string word(const Json& request, const char* key) {
  const auto found = request.find(key);
  return found != request.end() && found->is_string() ? found->get<std::string>() : std::string();
}

bool told(const Json& request, const char* key) {
  const auto found = request.find(key);
  return found != request.end() && found->is_boolean() && found->get<bool>();
}

Image image_of(const Json& request) {
  return image_from(word(request, "image"));
}

Layout layout_of(const Json& request, const Shelf& shelf) {
  const std::string id = word(request, "layout");
  if (shelf.has(id)) return shelf.named(id);
  refuse("layout", fmt::format("there is none with the name \"{}\"", printable(id)),
         "read its layout file first");
}

namespace {

std::vector<std::string> sentences(const Json& read, const char* key) {
  const auto found = read.find(key);
  return found == read.end() ? std::vector<std::string>() : found->get<std::vector<std::string>>();
}

}  // namespace

std::vector<Finding> reading_of(const Json& request, const Layout& layout, const Shelf& shelf) {
  const auto read = request.find("read");
  if (read == request.end() || !read->is_object()) return {};
  Dump dump{image_of(*read), Form::raw, {}, {}};
  dump.confession = {sentences(*read, "misread"), sentences(*read, "sealed_anyway")};
  dump.mirrored = told(*read, "mirrored");
  std::optional<Image> again;
  if (const std::string text = word(*read, "again"); !text.empty()) again = image_from(text);
  need_room_for(layout, dump.image, "dump");
  return reading_findings(judge_as_read(dump, layout, again, shelf));
}

Json read_json(const Dump& dump) {
  Json json;
  json["image"] = image_text(dump.image);
  json["mirrored"] = dump.mirrored;
  json["misread"] = dump.confession.misread;
  json["sealed_anyway"] = dump.confession.sealed_anyway;
  json["again"] = nullptr;
  return json;
}

Dump dump_of(const Json& request, const Shelf& shelf) {
  ReadingOptions options;
  const auto told_as = [&](const char* key, auto& into, auto named) {
    if (const std::string value = word(request, key); !value.empty()) into = named(key, value);
  };
  if (const std::string form = word(request, "form"); !form.empty())
    options.form = form_named(form);
  told_as("radix", options.radix, radix_named);
  told_as("width", options.width, width_named);
  told_as("order", options.order, order_named);
  told_as("addresses", options.addresses, addresses_named);
  told_as("at", options.at, offset_named);
  told_as("size", options.size, chip_size_named);
  options.likeness = [&](const Image& image) { return likeness(image, shelf); };
  return read_dump(bytes_from_hex(word(request, "content")), word(request, "name"), options);
}

DateTime time_of(const Json& request) {
  const std::string text = word(request, "time");
  if (const auto time = parse_iso(trim(text))) return *time;
  refuse("clock",
         fmt::format("\"{}\" is not a date and time between {} and {}", printable(text), first_year,
                     last_year),
         "2031-05-14T09:30:00");
}

}  // namespace rtcmend
