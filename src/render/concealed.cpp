#include "render/concealed.h"

#include <algorithm>

namespace rtcmend {

bool concealed(const Layout& layout, Address at) {
  const auto fields = layout.fields_at(at);
  return std::any_of(fields.begin(), fields.end(),
                     [](const Field* field) { return field->meaning == Meaning::concealed; });
}

}  // namespace rtcmend
