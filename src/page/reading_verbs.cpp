#include "base/error.h"
#include "base/text.h"
#include "deliver/delivery.h"
#include "forms/form_table.h"
#include "judge/compare.h"
#include "judge/health.h"
#include "judge/identify.h"
#include "judge/suspects.h"
#include "layout/library.h"
#include "layout/load.h"
#include "make/undo.h"
#include "page/image_text.h"
#include "page/look.h"
#include "page/request.h"
#include "page/verbs.h"
#include "render/delivery.h"
#include "render/diagnosis.h"

namespace rtcmend::verb {

namespace {

bool has_layout(const std::vector<Layout>& library, const std::string& id, std::size_t size) {
  for (const Layout& layout : library)
    if (layout.id == id && layout.size == size) return true;
  return false;
}

/// The layout to read a dump by: the one it names, else the one its bytes point to.
Json layout_for(const Dump& dump, const Identification& found, const std::vector<Layout>& library) {
  if (has_layout(library, dump.layout, dump.image.size())) return dump.layout;
  if (found.clear.empty() || found.mirrored) return nullptr;
  return found.clear;
}

/// A machine description rather than a dump: a JSON object that says what is set.
bool is_description(const std::string& content) {
  const Json json = Json::parse(content, nullptr, false);
  return json.is_object() && json.contains("set") && !json.contains("bytes");
}

Json composed(const Json& request, const std::string& content, std::vector<Layout>& library) {
  Json order = request;
  order["description"] = content;
  Json json = compose(order, library);
  json["composed"] = true;
  return json;
}

}  // namespace

Json offer(const Json&, std::vector<Layout>& library) {
  Json json = layouts_json(library);
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
    one["captures"] = can_capture(way);
    json["ways"].push_back(one);
  }
  return json;
}

Json open(const Json& request, std::vector<Layout>& library) {
  const std::string content = bytes_from_hex(word(request, "content"));
  if (is_description(content)) return composed(request, content, library);
  const Dump dump = request.contains("image") ? Dump{image_of(request), Form::raw, {}, {}, {}}
                                              : dump_of(request, library);
  const Identification found = identify(dump.image, library);
  Json json;
  json["image"] = image_text(dump.image);
  json["size"] = dump.image.size();
  json["form"] = name(dump.form);
  json["note"] = dump.note;
  json["remarks"]["notes"] = dump.remarks.notes;
  json["remarks"]["warnings"] = dump.remarks.warnings;
  json["layout"] = layout_for(dump, found, library);
  json["identification"] = identify_json(found);
  json["faults"] = findings_json(health(dump.image, library));
  return json;
}

Json look(const Json& request, std::vector<Layout>& library) {
  const Image image = image_of(request);
  const Layout& layout = layout_of(request, library);
  need_fitting(image, layout);
  return look_json(image, layout, judged(image, layout, library));
}

Json suspects(const Json& request, std::vector<Layout>& library) {
  Json json;
  json["suspects"] =
      suspects_json(rtcmend::suspects(image_of(request), layout_of(request, library)));
  return json;
}

Json compare(const Json& request, std::vector<Layout>& library) {
  const Dump found = dump_of(request, library);
  const Layout& layout = layout_of(request, library);
  Json json = compare_json(rtcmend::compare(image_of(request), found.image, layout), layout);
  json["form"] = name(found.form);
  return json;
}

Json read_layout(const Json& request, std::vector<Layout>& library) {
  const auto parts = [](std::string_view part) { return embedded_text(part); };
  Layout layout =
      load_layout(bytes_from_hex(word(request, "content")), word(request, "name"), parts);
  std::erase_if(library, [&](const Layout& old) { return old.id == layout.id; });
  Json json;
  json["layout"] = layout.id;
  json["size"] = layout.size;
  library.push_back(std::move(layout));
  return json;
}

}  // namespace rtcmend::verb
