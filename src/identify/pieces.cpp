#include "identify/pieces.h"

#include <algorithm>

#include "layout/library.h"

namespace rtcmend {

namespace {

/// A trait that takes the place of a check makes another version of its class: what the class
/// stands by is then no evidence for it.
bool replaces_a_check(const Trait& trait, const LayoutClass& of) {
  return std::ranges::any_of(trait.replaces, [&](const std::string& id) {
    return std::ranges::any_of(of.core.checks, [&](const Check& check) { return check.id == id; });
  });
}

}  // namespace

std::vector<Piece> pieces_for(std::size_t image_size, std::span<const Layout> own) {
  const Patterns& patterns = built_in_patterns(image_size);
  std::vector<Piece> pieces;
  pieces.reserve(patterns.layouts.size() + own.size());
  for (std::size_t i = 0; i < patterns.layouts.size(); ++i) {
    const auto& [of, trait, first_field, first_check] = patterns.about[i];
    if (trait == nullptr || replaces_a_check(*trait, *of))
      pieces.push_back({&patterns.layouts[i], of, trait});
    else
      pieces.push_back({&patterns.layouts[i], of, trait, first_field, first_check, false});
  }
  for (const Layout& layout : own)
    if (layout.size <= image_size) pieces.push_back({&layout});
  return pieces;
}

}  // namespace rtcmend
