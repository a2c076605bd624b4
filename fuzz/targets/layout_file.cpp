// A layout from a stranger: loaded or refused, and a loaded one can be used on any image.
#include "judge/examine.h"
#include "layout/library.h"
#include "layout/load.h"
#include "make/compose.h"
#include "target.h"

namespace rtcmend::fuzz {

void attempt(std::string_view input) {
  const Layout layout = load_layout(input, "fuzz", embedded_text);
  must(layout.size == 64 || layout.size == 128, "a layout is for a chip");
  const std::vector<std::uint8_t> full(layout.size, 0xA5);
  must(examine(Image(layout.size), layout).fields.size() == layout.fields.size(),
       "every field is read");
  examine(Image(full), layout);
  const Image image = compose({}, layout);
  for (const CheckResult& result : evaluate_all(layout, image))
    must(result.ok() || result.blank, "a composed image is sealed");
}

}  // namespace rtcmend::fuzz
