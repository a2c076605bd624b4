#include "page/plan.h"

#include <algorithm>

#include "base/text.h"
#include "chip/registers.h"
#include "render/concealed.h"

namespace rtcmend {

namespace {

std::vector<std::string> groups_of(const Layout& layout) {
  std::vector<std::string> names;
  for (const Field& field : layout.fields)
    if (std::find(names.begin(), names.end(), field.group) == names.end())
      names.push_back(field.group);
  return names;
}

std::string letter(std::size_t place) {
  constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
  return std::string(1, letters[place % letters.size()]);
}

/// Who a byte belongs to, and what that is called.
struct Owner {
  std::string kind;
  std::string words;
  Json group;
};

Owner chip_owner(Address at) {
  switch (at) {
    case reg::seconds_alarm:
      return {"alarm", "Alarm, seconds", nullptr};
    case reg::minutes_alarm:
      return {"alarm", "Alarm, minutes", nullptr};
    case reg::hours_alarm:
      return {"alarm", "Alarm, hours", nullptr};
    case reg::seconds:
      return {"clock", "Seconds", nullptr};
    case reg::minutes:
      return {"clock", "Minutes", nullptr};
    case reg::hours:
      return {"clock", "Hours", nullptr};
    case reg::weekday:
      return {"clock", "Day of the week", nullptr};
    case reg::day:
      return {"clock", "Day", nullptr};
    case reg::month:
      return {"clock", "Month", nullptr};
    case reg::year:
      return {"clock", "Year", nullptr};
    default:
      return {"register", "Register " + std::string(1, static_cast<char>('A' + (at - reg::a))),
              nullptr};
  }
}

std::string labels(const std::vector<const Field*>& fields) {
  std::vector<std::string> names;
  for (const Field* field : fields) names.push_back(field->label);
  return join(names, "; ");
}

Owner owner_of(const Layout& layout, const std::vector<std::string>& groups, Address at) {
  const auto fields = layout.fields_at(at);
  if (!fields.empty()) {
    const auto place = std::find(groups.begin(), groups.end(), fields.front()->group);
    return {"group", labels(fields), place - groups.begin()};
  }
  if (const auto stored = layout.checks_at(at); !stored.empty())
    return {"check", "Stored check " + stored.front()->id, nullptr};
  if (at <= reg::d) return chip_owner(at);
  return {"nobody", "Nobody's: the layout gives it no meaning", nullptr};
}

template <typename List>
Json ids(const List& list) {
  Json json = Json::array();
  for (const auto* one : list) json.push_back(one->id);
  return json;
}

bool blamed(const std::vector<Finding>& findings, Address at) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
    return finding.severity == Severity::fault &&
           std::find(finding.at.begin(), finding.at.end(), at) != finding.at.end();
  });
}

/// A byte as it may be shown.
std::string shown(const Image& image, Address at, bool hidden) {
  const auto byte = image.at(at);
  if (!byte) return "??";
  return hidden ? "**" : hex2(*byte);
}

Json cell(const Image& image, const Layout& layout, const Examination& examination,
          const std::vector<std::string>& groups, Address at) {
  const Owner owner = owner_of(layout, groups, at);
  const auto fields = layout.fields_at(at);
  const bool hidden = concealed(layout, at);
  Json json;
  json["at"] = at;
  json["text"] = shown(image, at, hidden);
  json["owner"] = owner.kind;
  json["group"] = owner.group;
  json["words"] = owner.words;
  json["fields"] = ids(fields);
  json["over"] = ids(layout.checks_over(at));
  json["stored"] = ids(layout.checks_at(at));
  json["known"] = image.known(at);
  json["concealed"] = hidden;
  json["blamed"] = blamed(examination.findings, at);
  return json;
}

}  // namespace

Json groups_json(const Layout& layout) {
  Json json = Json::array();
  const auto groups = groups_of(layout);
  for (std::size_t i = 0; i < groups.size(); ++i) {
    Json one;
    one["name"] = groups[i];
    one["letter"] = letter(i);
    json.push_back(one);
  }
  return json;
}

Json plan_json(const Image& image, const Layout& layout, const Examination& examination) {
  const auto groups = groups_of(layout);
  Json json = Json::array();
  for (std::size_t i = 0; i < image.size(); ++i)
    json.push_back(cell(image, layout, examination, groups, static_cast<Address>(i)));
  return json;
}

}  // namespace rtcmend
