#include "page/request.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "judge/identify.h"
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

const Layout& layout_of(const Json& request, const std::vector<Layout>& library) {
  const std::string id = word(request, "layout");
  for (const Layout& layout : library)
    if (layout.id == id) return layout;
  refuse("layout", fmt::format("there is none with the name \"{}\"", printable(id)),
         "read its layout file first");
}

void need_fitting(const Image& image, const Layout& layout) {
  if (image.size() == layout.size) return;
  refuse("layout",
         fmt::format("the dump holds {} bytes, and the layout {} is for {}", image.size(),
                     layout.id, layout.size),
         "choose another layout");
}

Dump dump_of(const Json& request, const std::vector<Layout>& library) {
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
  options.likeness = [&](const Image& image) {
    const Identification found = identify(image, library);
    return found.candidates.empty() ? 0.0 : found.candidates.front().score;
  };
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
