#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// The layouts at hand: the built-in ones, and those that were laid beside them.
class Shelf {
 public:
  /// Lays a layout of one's own on the shelf; one that was there with the same id goes. Refuses
  /// (Error) the id of a built-in layout: what a dump names must mean one thing.
  void add(Layout own);

  bool has(std::string_view id) const;
  /// The layout with this name, an own one before a built-in. Refuses (Error) an unknown one with
  /// the nearest names.
  Layout named(std::string_view id) const;
  /// One's own.
  const std::vector<Layout>& own() const { return own_; }
  /// Those whose checks may have something to say about an image, or about its lower half: one's
  /// own, and the checks of each built-in class and trait (layout/library.h). Good until the next
  /// add().
  const std::vector<Layout>& about(const Image& image) const;

 private:
  std::vector<Layout> own_;
  /// With the built-in ones; empty as long as there are no own ones.
  std::vector<Layout> small_, large_;
};

}  // namespace rtcmend
