// A stranger's layout of several files: the first piece of the input is the layout, the others are
// the parts "a", "b" and so on, pieces divided by the byte 1Eh. However they include each other,
// each is read once, and no more of them than the bounds allow.
#include <array>

#include "base/text.h"
#include "layout/load.h"
#include "target.h"

namespace rtcmend::fuzz {

void attempt(std::string_view input) {
  const auto pieces = split(input, '\x1E');
  std::array<int, 26> read{};
  int in_all = 0;
  const auto parts = [&](std::string_view name) -> std::string_view {
    if (name.size() != 1 || name[0] < 'a' || name[0] > 'z') return {};
    const auto index = static_cast<std::size_t>(name[0] - 'a');
    must(++read.at(index) == 1, "a part is read once");
    must(++in_all <= 64, "parts are bounded");
    return index + 1 < pieces.size() ? std::string_view(pieces[index + 1]) : std::string_view();
  };
  const Layout layout = load_layout(pieces.front(), "fuzz", parts);
  must(layout.fields.size() <= 512, "fields are bounded, with all that is included");
  must(layout.checks.size() <= 32, "checks are bounded, with all that is included");
}

}  // namespace rtcmend::fuzz
