#include "page/taken.h"

#include "page/request.h"

namespace rtcmend {

namespace {

/// The dump as it was read, before any change; nothing for an image made from nothing.
std::optional<Image> image_as_read(const Json& request) {
  const auto read = request.find("read");
  if (read == request.end() || !read->is_object()) return std::nullopt;
  return image_of(*read);
}

}  // namespace

Taken::Taken(const Json& request, const Shelf& shelf, Leaving leaving)
    : image(image_of(request)),
      layout(layout_of(request, shelf)),
      reading(reading_of(request, layout, shelf)) {
  const auto before = image_as_read(request);
  if (before) leaving.before = &*before;
  ready = readiness(image, layout, reading, leaving);
  if (!told(request, "anyway")) need_ready(ready, "image");
}

}  // namespace rtcmend
