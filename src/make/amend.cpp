#include "make/amend.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "layout/codec.h"
#include "make/seal.h"
#include "make/settings.h"

namespace rtcmend {

Setting parse_setting(const Layout& layout, std::string_view text) {
  const auto equals = text.find('=');
  if (equals == std::string_view::npos)
    refuse_choice(
        "set", fmt::format("\"{}\" has no \"=\"", printable(text)),
        Advice{{"Write it as FIELD=VALUE", Act{Act::Kind::choose, "set", "floppy_a=1.44M"}}});
  const Field& field = layout.need_field(trim(text.substr(0, equals)));
  return {field.id, parse_value(field, text.substr(equals + 1))};
}

Image amend(const Image& image, const Layout& layout, const std::vector<Setting>& settings,
            std::optional<DateTime> clock) {
  Image amended = with_settings(image, layout, settings);
  amended = with_followers(amended, layout, settings, Followers::of_settings);
  if (clock) amended = with_clock(amended, layout, settings, *clock);
  return seal(amended, layout);
}

}  // namespace rtcmend
