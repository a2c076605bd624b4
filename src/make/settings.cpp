#include "make/settings.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "judge/relations.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

bool is_set(const std::vector<Setting>& settings, const std::string& id) {
  return std::any_of(settings.begin(), settings.end(),
                     [&](const Setting& setting) { return setting.field == id; });
}

Image with_value(const Image& image, const Field& field, const Value& value) {
  Image changed = image;
  write_field(field, value, changed);
  return changed;
}

/// Twice the same is a slip without harm; two different values leave open what was meant.
void refuse_two_values(const Image& image, const Field& field, const Value& first,
                       const Value& second) {
  if (with_value(image, field, first) == with_value(image, field, second)) return;
  refuse(field.id,
         fmt::format("it is set twice, to {} and to {}", to_text(field, first),
                     to_text(field, second)),
         "keep one of the two");
}

/// One writing of a follower by the program, which may also fill those that users may not set.
Image derive(const Image& image, const Field& follower, const Value& value) {
  Field open = follower;
  open.read_only = false;
  return with_value(image, open, value);
}

void refuse_contradiction(const Field& follower, const Value& set, const Value& expected) {
  refuse(follower.id,
         fmt::format("it is set to {}, but {} would make it {}", to_text(follower, set),
                     join(follower.follows->of, ", "), to_text(follower, expected)),
         fmt::format("leave {} out, or set it to {}", follower.id, to_text(follower, expected)));
}

bool follows_a_setting(const Field& follower, const std::vector<Setting>& settings) {
  const auto& leaders = follower.follows->of;
  return std::any_of(leaders.begin(), leaders.end(),
                     [&](const std::string& id) { return is_set(settings, id); });
}

}  // namespace

Image with_settings(const Image& image, const Layout& layout,
                    const std::vector<Setting>& settings) {
  Image changed = image;
  for (auto setting = settings.begin(); setting != settings.end(); ++setting) {
    const Field& field = layout.need_field(setting->field);
    const auto earlier = std::find_if(settings.begin(), setting, [&](const Setting& other) {
      return other.field == setting->field;
    });
    if (earlier != setting) refuse_two_values(image, field, earlier->value, setting->value);
    changed = with_value(changed, field, setting->value);
  }
  return changed;
}

namespace {

Image one_pass(const Image& image, const Layout& layout, const std::vector<Setting>& settings,
               Followers which) {
  Image settled = image;
  for (const Field& field : layout.fields) {
    if (!field.follows) continue;
    const bool set = is_set(settings, field.id);
    if (!set && which == Followers::of_settings && !follows_a_setting(field, settings)) continue;
    const auto expected = expected_value(field, layout, settled);
    const FieldReading reading = read_field(field, settled);
    if (!expected || !reading.in_use || reading.value == *expected) continue;
    if (set && !breaks_relation(reading, layout, settled)) continue;
    if (set) refuse_contradiction(field, reading.value, *expected);
    settled = derive(settled, field, *expected);
  }
  return settled;
}

}  // namespace

Image with_followers(const Image& image, const Layout& layout, const std::vector<Setting>& settings,
                     Followers which) {
  Image settled = image;
  // A follower may count only while another one says so: the second pass finds it in use. More
  // passes than fields cannot change anything any more.
  for (std::size_t pass = 0; pass <= layout.fields.size(); ++pass) {
    const Image next = one_pass(settled, layout, settings, which);
    if (next == settled) break;
    settled = next;
  }
  return settled;
}

Image with_clock(const Image& image, const Layout& layout, const std::vector<Setting>& settings,
                 const DateTime& time) {
  if (!can_be_set(time))
    refuse_choice("clock", fmt::format("{} is not a date and time from {} to {}", to_iso(time),
                                       first_year, last_year));
  Image running = image;
  // PC firmware reads BCD on a 24-hour dial whatever register B says, and power-on tests refuse an
  // hours byte with the bit of the afternoon (RBIL61, INT 1Ah AH = 02h; measured).
  const ClockMode own = mode_of(image).value_or(ClockMode{});
  start_clock(time, is_of_a_pc(layout) ? ClockMode{} : own, running);
  const Field* field = layout.field("century");
  if (field == nullptr) return running;
  const Value century = std::int64_t{time.year / 100};
  for (const Setting& setting : settings)
    if (setting.field == field->id && setting.value != century)
      refuse(field->id,
             fmt::format("it is set to {}, but the clock is set to {}",
                         to_text(*field, setting.value), to_iso(time)),
             "leave the century out: setting the clock sets it");
  return derive(running, *field, century);
}

}  // namespace rtcmend
