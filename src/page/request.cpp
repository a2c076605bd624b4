#include "page/request.h"

#include <algorithm>
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

namespace {

/// The dump that the page read, as its request hands it back.
Dump dump_read(const Json& read) {
  const std::string form = word(read, "form");
  Dump dump{image_of(read), form.empty() ? Form::raw : form_named(form), {}, {}};
  dump.confession = {sentences(read, "misread"), sentences(read, "sealed_anyway")};
  dump.mirrored = told(read, "mirrored");
  for (const std::uint8_t letter : bytes_from_hex(word(read, "text")))
    dump.text += static_cast<char>(letter);
  return dump;
}

std::vector<Reread> rereads(const Json& read) {
  std::vector<Reread> again;
  const auto found = read.find("again");
  if (found == read.end()) return again;
  if (found->is_string()) again.push_back({"", image_from(found->get<std::string>())});
  if (found->is_array())
    for (const Json& one : *found) again.push_back({"", image_from(one.get<std::string>())});
  return again;
}

}  // namespace

std::vector<Finding> reading_of(const Json& request, const Layout& layout, const Shelf& shelf) {
  const auto read = request.find("read");
  if (read == request.end() || !read->is_object()) return {};
  const Dump dump = dump_read(*read);
  need_room_for(layout, dump.image, "dump");
  return reading_findings(judge_as_read(dump, layout, rereads(*read), shelf));
}

Provenance provenance_in(const Json& request) {
  const auto read = request.find("read");
  if (read == request.end() || !read->is_object()) return {};
  Dump dump = dump_read(*read);
  const Image now = image_of(request);
  for (std::size_t i = 0; i < std::min(now.size(), dump.text.size()); ++i)
    if (now.at(static_cast<Address>(i)) != dump.image.at(static_cast<Address>(i))) dump.text[i] = 0;
  return provenance_of(dump, rereads(*read), std::nullopt);
}

Json read_json(const Dump& dump) {
  Json json;
  json["image"] = image_text(dump.image);
  json["form"] = name(dump.form);
  json["text"] = hex_text(dump.text);
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
