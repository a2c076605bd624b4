#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "chip/cautions.h"
#include "deliver/delivery.h"
#include "desk/change.h"
#include "desk/open.h"
#include "desk/ready.h"
#include "forms/form_table.h"
#include "identify/identify.h"
#include "judge/compare.h"
#include "judge/health.h"
#include "layout/library.h"
#include "layout/load.h"
#include "make/undo.h"
#include "page/image_text.h"
#include "page/look.h"
#include "page/request.h"
#include "page/verbs.h"
#include "render/delivery_json.h"
#include "render/diagnosis_json.h"
#include "render/plan_json.h"

namespace rtcmend::verb {

namespace {

/// A machine description rather than a dump: a JSON object that says what is set.
bool is_description(const std::string& content) {
  const Json json = Json::parse(content, nullptr, false);
  return json.is_object() && json.contains("set") && !json.contains("bytes");
}

Json composed(const Json& request, const std::string& content, Shelf& shelf) {
  Json order = request;
  order["description"] = content;
  Json json = compose(order, shelf);
  json["composed"] = true;
  return json;
}

/// Every class, and every class with one trait: what a person may choose from; and one's own.
std::vector<Layout> whole_layouts(const Shelf& shelf) {
  std::vector<Layout> layouts;
  for (const std::string& name : built_in_layouts()) layouts.push_back(built_in_layout(name));
  layouts.insert(layouts.end(), shelf.own().begin(), shelf.own().end());
  return layouts;
}

}  // namespace

Json offer(const Json&, Shelf& shelf) {
  Json json = layouts_json(whole_layouts(shelf));
  json["forms"] = Json::array();
  json["form_table"] = Json::array();
  for (const FormEntry& entry : form_table()) {
    json["forms"].push_back(entry.name);
    Json one;
    one["name"] = entry.name;
    one["title"] = entry.title;
    one["ending"] = entry.saved_as.substr(1);
    json["form_table"].push_back(one);
  }
  json["ways"] = Json::array();
  for (const Way way : all_ways()) {
    Json one;
    one["way"] = name(way);
    one["captures"] = true;
    json["ways"].push_back(one);
  }
  json["cautions"] = cautions_json(bench_cautions());
  return json;
}

Json open(const Json& request, Shelf& shelf) {
  const std::string content = bytes_from_hex(word(request, "content"));
  if (is_description(content)) return composed(request, content, shelf);
  const Dump dump = once(request.contains("image") ? Dump{image_of(request), Form::raw, {}, {}}
                                                   : dump_of(request, shelf),
                         std::nullopt, shelf);
  const auto layout = clear_layout_for(dump, word(request, "name"), shelf);
  Json json;
  json["image"] = image_text(dump.image);
  json["read"] = read_json(dump);
  json["size"] = dump.image.size();
  json["form"] = name(dump.form);
  json["note"] = dump.note;
  json["layout"] = layout ? Json(layout->id) : Json(nullptr);
  json["begin"] = "chip";  // knows the clock alone, where the bytes do not say more
  json["identification"] = identify_json(identify(dump.image, shelf.own()));
  json["faults"] = findings_json(health(dump.image, shelf.about(dump.image)));
  json["remarks"]["notes"] = dump.remarks.notes;
  json["remarks"]["warnings"] = dump.remarks.warnings;
  return json;
}

Json look(const Json& request, Shelf& shelf) {
  const Image image = image_of(request);
  const Layout layout = layout_of(request, shelf);
  need_room_for(layout, image, "dump");
  return look_json(image, layout, readiness(image, layout, reading_of(request, layout, shelf), {}));
}

Json suspects(const Json& request, Shelf& shelf) {
  const Layout layout = layout_of(request, shelf);
  Json json;
  const auto all = open_suspects(image_of(request), layout, reading_of(request, layout, shelf),
                                 provenance_in(request));
  json["suspects"] = suspects_json(all);
  json["none_of_these"] = none_json(all);
  return json;
}

Json compare(const Json& request, Shelf& shelf) {
  const Dump found = dump_of(request, shelf);
  const Layout layout = layout_of(request, shelf);
  Json json = compare_json(rtcmend::compare(image_of(request), found.image, layout), layout);
  json["form"] = name(found.form);
  json["found"] = image_text(found.image);
  return json;
}

Json read_layout(const Json& request, Shelf& shelf) {
  const auto parts = [](std::string_view part) { return embedded_text(part); };
  Layout layout =
      load_layout(bytes_from_hex(word(request, "content")), word(request, "name"), parts);
  Json json;
  layout.files = {word(request, "name")};
  json["layout"] = layout.id;
  json["size"] = layout.size;
  shelf.add(std::move(layout));
  return json;
}

}  // namespace rtcmend::verb
