#include "desk/shelf.h"

#include <algorithm>

#include "base/error.h"
#include "judge/misreads.h"
#include "layout/library.h"
#include "layout/outlines.h"

namespace rtcmend {

namespace {

bool is_built_in(std::string_view id) {
  const auto ids = built_in_layouts();
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

const Layout* find(const std::vector<Layout>& layouts, std::string_view id) {
  const auto found = std::find_if(layouts.begin(), layouts.end(),
                                  [&](const Layout& layout) { return layout.id == id; });
  return found == layouts.end() ? nullptr : &*found;
}

std::vector<Layout> of_size(const std::vector<Layout>& layouts, std::size_t size) {
  std::vector<Layout> some;
  std::copy_if(layouts.begin(), layouts.end(), std::back_inserter(some),
               [&](const Layout& layout) { return layout.size == size; });
  return some;
}

}  // namespace

void Shelf::add(Layout own) {
  if (is_built_in(own.id))
    refuse(own.id, "a built-in layout has this id", "give the layout an id of its own");
  std::erase_if(own_, [&](const Layout& old) { return old.id == own.id; });
  own_.push_back(std::move(own));
  all_ = built_in_outlines();
  std::erase_if(all_, [&](const Layout& layout) { return find(own_, layout.id) != nullptr; });
  all_.insert(all_.end(), own_.begin(), own_.end());
  small_ = of_size(all_, Image::small_size);
  large_ = of_size(all_, Image::large_size);
}

bool Shelf::has(std::string_view id) const {
  return find(own_, id) != nullptr || is_built_in(id);
}

Layout Shelf::named(std::string_view id) const {
  if (const Layout* own = find(own_, id)) return *own;
  return built_in_layout(id);
}

const std::vector<Layout>& Shelf::about(const Image& image) const {
  if (halves_mirror(image)) return all();
  if (own_.empty()) return built_in_outlines(image.size());
  return image.size() == Image::small_size ? small_ : large_;
}

const std::vector<Layout>& Shelf::all() const {
  return own_.empty() ? built_in_outlines() : all_;
}

std::vector<Layout> Shelf::whole() const {
  std::vector<Layout> layouts;
  for (const Layout& layout : all()) layouts.push_back(named(layout.id));
  return layouts;
}

}  // namespace rtcmend
