#include "page/cells.h"

#include <array>

#include "base/text.h"
#include "chip/registers.h"

namespace rtcmend {

namespace {

/// Who a byte belongs to, and what that is called.
struct Named {
  std::string kind;
  std::string words;
};

Named chip_byte(Address at) {
  // MC146818A, address map.
  static const std::array<Named, reg::d + 1> names{{{"clock", "Seconds"},
                                                    {"alarm", "Alarm, seconds"},
                                                    {"clock", "Minutes"},
                                                    {"alarm", "Alarm, minutes"},
                                                    {"clock", "Hours"},
                                                    {"alarm", "Alarm, hours"},
                                                    {"clock", "Day of the week"},
                                                    {"clock", "Day"},
                                                    {"clock", "Month"},
                                                    {"clock", "Year"},
                                                    {"register", "Register A"},
                                                    {"register", "Register B"},
                                                    {"register", "Register C"},
                                                    {"register", "Register D"}}};
  return names.at(at);
}

std::string labels(const std::vector<const Field*>& fields) {
  std::vector<std::string> names;
  names.reserve(fields.size());
  for (const Field* field : fields) names.push_back(field->label);
  return join(names, "; ");
}

Named named(const PlannedByte& byte, const Layout& layout) {
  switch (byte.owner) {
    case Owner::group:
      return {"group", labels(byte.fields)};
    case Owner::check:
      return {"check", "Stored check " + layout.checks_at(byte.at).front()->id};
    case Owner::clock:
    case Owner::registers:
      return chip_byte(byte.at);
    default:
      return {"nobody", "Nobody's: the layout gives it no meaning"};
  }
}

template <typename List>
Json ids(const List& list) {
  Json json = Json::array();
  for (const auto* one : list) json.push_back(one->id);
  return json;
}

/// A byte as it may be shown.
std::string shown(const Image& image, Address at, bool hidden) {
  const auto byte = image.at(at);
  if (!byte) return "??";
  return hidden ? "**" : hex2(*byte);
}

Json cell(const PlannedByte& byte, const Image& image, const Layout& layout) {
  const Named owner = named(byte, layout);
  Json json;
  json["at"] = byte.at;
  json["text"] = shown(image, byte.at, byte.concealed);
  json["owner"] = owner.kind;
  json["group"] = byte.groups.empty() ? Json(nullptr) : Json(byte.groups.front());
  json["words"] = owner.words;
  json["fields"] = ids(byte.fields);
  json["over"] = ids(layout.checks_over(byte.at));
  json["stored"] = ids(layout.checks_at(byte.at));
  json["known"] = image.known(byte.at);
  json["concealed"] = byte.concealed;
  json["blamed"] = byte.damage == Damage::fault;
  return json;
}

}  // namespace

/// What a person sets comes first, what the machine notes for itself last: -1, 0 or 1 and further.
int place_in_order(std::string_view group) {
  constexpr std::string_view first[] = {"equipment", "memory", "drives"};
  constexpr std::string_view last[] = {"last start", "second copy", "free"};
  for (int i = 0; i < 3; ++i) {
    if (group == first[i]) return -1 - i;
    if (group == last[i]) return 1 + i;
  }
  return 0;
}

Json groups_json(const MemoryPlan& plan) {
  Json json = Json::array();
  for (std::size_t i = 0; i < plan.groups.size(); ++i) {
    Json one;
    one["name"] = plan.groups[i];
    one["letter"] = group_letter(i);
    one["order"] = place_in_order(plan.groups[i]);
    json.push_back(one);
  }
  return json;
}

Json cells_json(const MemoryPlan& plan, const Image& image, const Layout& layout) {
  Json json = Json::array();
  for (const PlannedByte& byte : plan.bytes) json.push_back(cell(byte, image, layout));
  return json;
}

}  // namespace rtcmend
