#include "desk/shelf.h"

#include <algorithm>

#include "base/error.h"
#include "layout/library.h"

namespace rtcmend {

namespace {

const Layout* find(const std::vector<Layout>& layouts, std::string_view id) {
  const auto found = std::find_if(layouts.begin(), layouts.end(),
                                  [&](const Layout& layout) { return layout.id == id; });
  return found == layouts.end() ? nullptr : &*found;
}

std::vector<Layout> with_built_in(std::size_t image_size, const std::vector<Layout>& own) {
  std::vector<Layout> all = built_in_checks(image_size);
  std::copy_if(own.begin(), own.end(), std::back_inserter(all),
               [&](const Layout& layout) { return layout.size <= image_size; });
  return all;
}

}  // namespace

void Shelf::add(Layout own) {
  if (is_built_in(own.id))
    refuse(own.id, "a built-in layout has this id", "give the layout an id of its own");
  std::erase_if(own_, [&](const Layout& old) { return old.id == own.id; });
  own_.push_back(std::move(own));
  small_ = with_built_in(Image::small_size, own_);
  large_ = with_built_in(Image::large_size, own_);
}

bool Shelf::has(std::string_view id) const {
  return find(own_, id) != nullptr || is_built_in(id);
}

Layout Shelf::named(std::string_view id) const {
  if (const Layout* own = find(own_, id)) return *own;
  return built_in_layout(id);
}

const std::vector<Layout>& Shelf::about(const Image& image) const {
  if (own_.empty()) return built_in_checks(image.size());
  return image.size() == Image::small_size ? small_ : large_;
}

}  // namespace rtcmend
