// A machine description from a stranger: refused, or composed into an image whose checks hold.
#include "judge/examine.h"
#include "layout/library.h"
#include "make/compose.h"
#include "target.h"

namespace rtcmend::fuzz {

void attempt(std::string_view input) {
  static const Layout layouts[] = {built_in_layout("at"), built_in_layout("crc+slots-19")};
  const Description description = parse_description(input, "fuzz");
  const Description again = parse_description(to_json(description), "again");
  must(again.set == description.set && again.clock == description.clock &&
           again.note == description.note,
       "what is saved reads back the same");
  for (const Layout& layout : layouts) {
    if (!description.layout.empty() && description.layout != layout.id) continue;
    const Image image = compose(description, layout);
    for (const CheckResult& result : evaluate_all(layout, image))
      must(result.ok(), "a composed image is sealed");
  }
}

}  // namespace rtcmend::fuzz
