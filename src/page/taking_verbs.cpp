#include "base/error.h"
#include "base/text.h"
#include "codes/forecast.h"
#include "deliver/parcel.h"
#include "desk/change.h"
#include "desk/confession.h"
#include "desk/open.h"
#include "desk/ready.h"
#include "forms/form.h"
#include "judge/health.h"
#include "page/image_text.h"
#include "page/look.h"
#include "page/request.h"
#include "page/taken.h"
#include "page/verbs.h"
#include "render/delivery_json.h"
#include "sheet/sheet.h"
#include "upkeep/cell_plan.h"

namespace rtcmend::verb {

namespace {

std::optional<std::uint8_t> fill_of(const Json& request) {
  const std::string digits = word(request, "fill");
  if (digits.empty()) return std::nullopt;
  const auto byte = parse_hex(digits, 0xFF);
  if (!byte) refuse("fill", "\"" + printable(digits) + "\" is not a byte", "00, or FF");
  return static_cast<std::uint8_t>(*byte);
}

DiskFormat disk_of(const Json& request) {
  const std::string disk = word(request, "disk");
  return disk.empty() ? DiskFormat::m1_44 : disk_format_named(disk);
}

Parcel parcel_from(const Json& request, const Image& image, const Layout& layout) {
  Parcel parcel = parcel_of(image, layout);
  if (const std::string clock = word(request, "clock"); !clock.empty())
    parcel.clock = clock_policy_named(clock);
  parcel.disk = disk_of(request);
  parcel.occasion = told(request, "whenLost") ? Occasion::when_lost : Occasion::once;
  parcel.codes = told(request, "codes");
  return parcel;
}

Json carried(const Delivery& delivery, Way way) {
  Json json = carried_json({"", "", way, delivery});
  json["content"] = hex_text(delivery.sheet.empty() ? delivery.content : delivery.sheet);
  return json;
}

}  // namespace

Json save(const Json& request, Shelf& shelf) {
  const Taken taken(request, shelf, {});
  const WriteOptions options{fill_of(request), taken.layout.id, word(request, "note"),
                             confession(taken.ready, taken.reading)};
  Json json;
  json["content"] = hex_text(write_dump(taken.image, form_named(word(request, "form")), options));
  return json;
}

Json sheet(const Json& request, Shelf& shelf) {
  const Layout layout = layout_of(request, shelf);
  const std::string form = word(request, "form"), name = word(request, "name");
  const Dump dump{image_of(request), form.empty() ? Form::raw : form_named(form), layout.id,
                  word(request, "note")};
  need_room_for(layout, dump.image, "dump");
  const std::vector<Finding> reading = reading_of(request, layout, shelf);
  const Examination examination = examine_changed(dump.image, layout, reading);
  const Card card{name, dump, layout, examination};
  Json json;
  Sheet sheet{"", "", card, forecast(examination, layout),
              open_suspects(dump.image, layout, reading, provenance_in(request))};
  if (told(request, "cell")) sheet.plan = usual_plan(time_of(request));
  sheet.sources = told(request, "sources");
  json["html"] = sheet_html(sheet);
  return json;
}

Json deliver(const Json& request, Shelf& shelf) {
  const std::string clock = word(request, "clock");
  const Taken taken(request, shelf, {clock == name(ClockPolicy::image), nullptr, nullptr});
  const Way way = way_named(word(request, "way"));
  const Delivery delivery = rtcmend::deliver(parcel_from(request, taken.image, taken.layout), way);
  Json json = carried(delivery, way);
  json["code"] = delivery.code;
  json["leftAlone"] = to_prose(delivery.left_alone);
  return json;
}

Json capture(const Json& request, Shelf&) {
  CaptureOrder order;
  order.disk = disk_of(request);
  const std::string size = word(request, "size");
  if (!size.empty() && size != "64" && size != "128")
    refuse("size", "a clock chip has 64 or 128 bytes", "64");
  if (!size.empty()) order.size = size == "64" ? Image::small_size : Image::large_size;
  const Way way = way_named(word(request, "way"));
  return carried(rtcmend::capture(order, way), way);
}

}  // namespace rtcmend::verb
