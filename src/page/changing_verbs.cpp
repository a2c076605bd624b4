#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "desk/change.h"
#include "layout/codec.h"
#include "make/compose.h"
#include "make/seal.h"
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

Json set(const Json& request, Shelf& shelf) {
  const Layout layout = layout_of(request, shelf);
  const Field& field = layout.need_field(word(request, "field"));
  return changed(with_fields(image_of(request), layout,
                             {{field.id, parse_value(field, word(request, "entry"))}}));
}

Json byte(const Json& request, Shelf& shelf) {
  const auto at = request.at("at").get<unsigned>();
  const auto bytes = parse_bytes(fmt::format("{:02X}={}", at, word(request, "digits")));
  return changed(with_byte_settings(image_of(request), layout_of(request, shelf), bytes));
}

Json clock(const Json& request, Shelf& shelf) {
  const Image before = image_of(request);
  const Image after = with_time(before, layout_of(request, shelf), time_of(request));
  Json json = changed(after);
  json["told"] = mode_change(before, after);
  return json;
}

Json seal(const Json& request, Shelf& shelf) {
  return changed(rtcmend::seal(image_of(request), layout_of(request, shelf)));
}

Json accept(const Json& request, Shelf& shelf) {
  const Layout layout = layout_of(request, shelf);
  const std::vector<Finding> reading = reading_of(request, layout, shelf);
  const Amended made = with_repair(image_of(request), layout, reading, provenance_in(request),
                                   word(request, "suspect"));
  Json json = changed(made.image);
  // Settled by further dumps, the repaired image is what was read, and they need not be kept.
  if (made.reading.size() < reading.size()) {
    json["read"] = request.at("read");
    json["read"]["image"] = image_text(made.image);
    json["read"]["text"] = "";
    json["read"]["again"] = nullptr;
  }
  return json;
}

Json undo_misread(const Json& request, Shelf&) {
  const std::string what = word(request, "what");
  Json json = changed(undo(image_of(request), what));
  const Json& read = request.at("read");
  Dump righted{undo(image_of(read), what), Form::raw, {}, {}};
  righted.mirrored = told(read, "mirrored");
  json["read"] = read_json(righted);
  return json;
}

Json compose(const Json& request, Shelf& shelf) {
  const Description description = description_of(request);
  if (description.layout.empty())
    refuse(word(request, "name"), "it names no layout", "\"layout\": \"at\" in it");
  const Layout layout = layout_of({{"layout", description.layout}}, shelf);
  Json json = changed(rtcmend::compose(description, layout));
  json["read"] = nullptr;
  json["layout"] = layout.id;
  json["note"] = description.note;
  return json;
}

}  // namespace rtcmend::verb
