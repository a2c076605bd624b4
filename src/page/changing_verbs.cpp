#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "repair/suspects.h"
#include "layout/codec.h"
#include "make/compose.h"
#include "make/seal.h"
#include "make/settle.h"
#include "make/undo.h"
#include "page/image_text.h"
#include "page/request.h"
#include "page/verbs.h"

namespace rtcmend::verb {

namespace {

Json changed(const Image& image) {
  Json json;
  json["image"] = image_text(image);
  return json;
}

Address address_of(const Json& request, const Image& image) {
  const auto at = request.at("at").get<std::size_t>();
  if (at >= image.size())
    refuse("byte", fmt::format("{:02X}h is outside the chip's {} bytes", at, image.size()));
  return static_cast<Address>(at);
}

Description description_of(const Json& request) {
  Description description;
  if (const std::string text = word(request, "description"); !text.empty())
    description = parse_description(text, word(request, "name"));
  if (const std::string layout = word(request, "layout"); !layout.empty())
    description.layout = layout;
  const bool now = description.clock_now || word(request, "description").empty();
  if (now && !description.clock) description.clock = time_of(request);
  return description;
}

}  // namespace

Json set(const Json& request, std::vector<Layout>& library) {
  const Layout& layout = layout_of(request, library);
  const Field& field = layout.need_field(word(request, "field"));
  const std::vector<Setting> settings{{field.id, parse_value(field, word(request, "entry"))}};
  const Image image = with_settings(image_of(request), layout, settings);
  return changed(with_followers(image, layout, settings, Followers::of_settings));
}

Json byte(const Json& request, std::vector<Layout>& library) {
  const Layout& layout = layout_of(request, library);
  Image image = image_of(request);
  const Address at = address_of(request, image);
  const std::string digits = word(request, "digits");
  const auto value = digits.size() <= 2 ? parse_hex(digits, 0xFF) : std::nullopt;
  if (!value)
    refuse("byte", fmt::format("\"{}\" is not a byte", printable(digits)),
           "two hex digits, such as 0F");
  if (layout.is_private(at))
    refuse("byte", fmt::format("byte {} belongs to a password, which rtcmend does not change",
                               hex_prose(at)));
  image.set(at, static_cast<std::uint8_t>(*value));
  return changed(image);
}

Json clock(const Json& request, std::vector<Layout>& library) {
  return changed(with_clock(image_of(request), layout_of(request, library), {}, time_of(request)));
}

Json seal(const Json& request, std::vector<Layout>& library) {
  return changed(rtcmend::seal(image_of(request), layout_of(request, library)));
}

Json accept(const Json& request, std::vector<Layout>& library) {
  const Image image = image_of(request);
  const auto all = rtcmend::suspects(image, layout_of(request, library));
  return changed(repaired(image, need_suspect(all, word(request, "suspect"))));
}

Json undo_misread(const Json& request, std::vector<Layout>&) {
  return changed(undo(image_of(request), word(request, "what")));
}

Json compose(const Json& request, std::vector<Layout>& library) {
  const Description description = description_of(request);
  if (description.layout.empty())
    refuse(word(request, "name"), "it names no layout", "\"layout\": \"at-64\" in it");
  const Layout& layout = layout_of({{"layout", description.layout}}, library);
  Json json = changed(rtcmend::compose(description, layout));
  json["layout"] = layout.id;
  json["note"] = description.note;
  return json;
}

}  // namespace rtcmend::verb
