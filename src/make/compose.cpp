#include "make/compose.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/json.h"
#include "base/text.h"
#include "chip/registers.h"
#include "layout/codec.h"
#include "make/seal.h"
#include "make/settings.h"

namespace rtcmend {

namespace {

/// A healthy chip that PC firmware has set up, its RAM empty.
Image fresh_chip(std::size_t size) {
  Image image(size);
  for (std::size_t at = 0; at < size; ++at) image.set(static_cast<Address>(at), 0);
  image.set(reg::a, usual_a);
  image.set(reg::b, usual_b);
  image.set(reg::c, healthy_c);
  image.set(reg::d, healthy_d);
  return image;
}

Image with_presets(Image image, const Layout& layout) {
  for (Field field : layout.fields) {
    if (std::holds_alternative<std::monostate>(field.preset)) continue;
    // Read-only binds users, not the layout's own defaults.
    field.read_only = false;
    write_field(field, field.preset, image);
  }
  return image;
}

/// Numbers and flags may be written as text too; the field knows what its text means.
Value value_for(const Field& field, const Value& given) {
  if (const auto* text = std::get_if<std::string>(&given)) return parse_value(field, *text);
  if (const std::string why = illegal_because(field, given); !why.empty())
    refuse(field.id, why, "legal: " + legal_values(field));
  return given;
}

Setting to_setting(const Layout& layout, const std::string& id, const Value& given) {
  try {
    const Field& field = layout.need_field(id);
    return {id, value_for(field, given)};
  } catch (const Error& error) {
    throw Error(error.refusal(), id, error.message(), error.advice());
  }
}

/// Nobody said what time it is: the first moment of the century that was asked for.
DateTime moment_without_clock(const std::vector<Setting>& settings) {
  for (const Setting& setting : settings)
    if (setting.field == "century" && setting.value == Value{std::int64_t{20}})
      return {2000, 1, 1, 0, 0, 0};
  return first_moment;
}

std::size_t size_of_chip(const Description& description, const Layout& layout) {
  const std::size_t size = description.size.value_or(layout.size);
  if (size < layout.size)
    refuse(description.origin.empty() ? "size" : json_place(description.origin, "/size"),
           fmt::format("a chip of {} bytes is too small: the layout {} needs {}", size, layout.id,
                       layout.size));
  return size;
}

Image composed(const Description& description, const Layout& layout) {
  std::vector<Setting> settings;
  for (const auto& [id, value] : description.set) settings.push_back(to_setting(layout, id, value));

  Image image = with_presets(fresh_chip(size_of_chip(description, layout)), layout);
  image = with_settings(image, layout, settings);
  image = with_followers(image, layout, settings, Followers::all);
  image = with_clock(image, layout, settings,
                     description.clock.value_or(moment_without_clock(settings)));
  return seal(image, layout);
}

bool sets(const Description& description, const std::string& id) {
  return std::any_of(description.set.begin(), description.set.end(),
                     [&](const auto& entry) { return entry.first == id; });
}

}  // namespace

Image compose(const Description& description, const Layout& layout) {
  try {
    return composed(description, layout);
  } catch (const Error& error) {
    // Refusals about a field name the field; in a file it has a place.
    if (description.origin.empty() || !sets(description, error.where())) throw;
    throw Error(error.refusal(), json_place(description.origin, "/set/" + printable(error.where())),
                error.message(), error.advice());
  }
}

}  // namespace rtcmend
