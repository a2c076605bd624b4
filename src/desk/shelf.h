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
  /// The layout with this id, an own one before a built-in. Refuses (Error) an unknown one with the
  /// nearest ids.
  Layout named(std::string_view id) const;
  /// The layouts that have something to say about an image: those of its size, or all when its
  /// halves repeat each other. Built-in ones are outlines (layout/library.h). Good until the next
  /// add().
  const std::vector<Layout>& about(const Image& image) const;
  /// All of them.
  const std::vector<Layout>& all() const;
  /// The same with the words that only people read; made anew by each call.
  std::vector<Layout> whole() const;

 private:
  std::vector<Layout> own_;
  /// With the built-in ones; empty as long as there are no own ones.
  std::vector<Layout> all_, small_, large_;
};

}  // namespace rtcmend
