#include "base/error.h"
#include "base/text.h"
#include "deliver/parcel.h"
#include "forms/form.h"
#include "judge/forecast.h"
#include "judge/suspects.h"
#include "page/image_text.h"
#include "page/look.h"
#include "page/request.h"
#include "page/verbs.h"
#include "render/delivery.h"
#include "render/sheet.h"
#include "upkeep/cell_plan.h"

namespace rtcmend::verb {

namespace {

std::vector<std::string> faults_of(const Examination& examination) {
  std::vector<std::string> faults;
  for (const Finding& finding : examination.findings)
    if (finding.severity == Severity::fault) faults.push_back(finding.text);
  return faults;
}

/// What is written into a chip must be sound, unless the user says that it need not be.
void refuse_unsound(const Json& request, const Examination& examination) {
  if (told(request, "anyway") || fit_to_write(examination)) return;
  refuse("image",
         "nothing was made, because it is not sound: " + join(faults_of(examination), "; "),
         "mend what is named (re-sealing mends checks), or make it all the same");
}

std::optional<std::uint8_t> fill_of(const Json& request) {
  const std::string digits = word(request, "fill");
  if (digits.empty()) return std::nullopt;
  const auto byte = parse_hex(digits, 0xFF);
  if (!byte) refuse("fill", "\"" + printable(digits) + "\" is not a byte", "00, or FF");
  return static_cast<std::uint8_t>(*byte);
}

DiskFormat disk_of(const Json& request) {
  const std::string disk = word(request, "disk");
  return disk.empty() ? DiskFormat::m1_44 : disk_format_named(disk, "disk");
}

Parcel parcel_from(const Json& request, const Image& image, const Layout& layout) {
  Parcel parcel = parcel_of(image, layout);
  if (const std::string clock = word(request, "clock"); !clock.empty())
    parcel.clock = clock_policy_named(clock, "clock");
  parcel.disk = disk_of(request);
  parcel.occasion = told(request, "whenLost") ? Occasion::when_lost : Occasion::once;
  return parcel;
}

Json carried(const Delivery& delivery, Way way) {
  Json json = carried_json({"", "", way, delivery});
  json["content"] = hex_text(delivery.content);
  return json;
}

/// The commonest cell on a potted part, put in today.
CellPlan usual_plan(const DateTime& today) {
  PlanQuestion question;
  question.load.cell = cell_named("2032");
  question.fitted = today;
  return plan_cell(question);
}

}  // namespace

Json save(const Json& request, std::vector<Layout>& library) {
  const Image image = image_of(request);
  const Layout& layout = layout_of(request, library);
  refuse_unsound(request, examine(image, layout));
  const WriteOptions options{fill_of(request), layout.id, word(request, "note")};
  Json json;
  json["content"] = hex_text(write_dump(image, form_named(word(request, "form")), options));
  return json;
}

Json sheet(const Json& request, std::vector<Layout>& library) {
  const Layout& layout = layout_of(request, library);
  const std::string form = word(request, "form"), name = word(request, "name");
  const Dump dump{image_of(request),
                  form.empty() ? Form::raw : form_named(form),
                  layout.id,
                  word(request, "note"),
                  {}};
  need_fitting(dump.image, layout);
  const Examination examination = judged(dump.image, layout, library);
  const Card card{name, dump, layout, examination};
  Json json;
  json["html"] = sheet_html({"", "", card, forecast(examination, layout),
                             rtcmend::suspects(dump.image, layout), usual_plan(time_of(request))});
  return json;
}

Json deliver(const Json& request, std::vector<Layout>& library) {
  const Image image = image_of(request);
  const Layout& layout = layout_of(request, library);
  refuse_unsound(request, judged(image, layout, library));
  const Way way = way_named(word(request, "way"), "way");
  const Delivery delivery = rtcmend::deliver(parcel_from(request, image, layout), way);
  Json json = carried(delivery, way);
  json["code"] = delivery.code;
  json["leftAlone"] = to_prose(delivery.left_alone);
  return json;
}

Json capture(const Json& request, std::vector<Layout>&) {
  CaptureOrder order;
  order.disk = disk_of(request);
  const std::string size = word(request, "size");
  if (!size.empty() && size != "64" && size != "128")
    refuse("size", "a clock chip has 64 or 128 bytes", "64");
  if (!size.empty()) order.size = size == "64" ? Image::small_size : Image::large_size;
  const Way way = way_named(word(request, "way"), "way");
  return carried(rtcmend::capture(order, way), way);
}

}  // namespace rtcmend::verb
