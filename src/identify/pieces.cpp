#include "identify/pieces.h"

#include <algorithm>

#include "identify/evidence.h"
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

bool can_speak(const Piece& piece) {
  return !piece.checks().empty() || std::ranges::any_of(piece.fields(), can_be_evidence);
}

double most_bits_of(const Piece& piece) {
  double most = 0;
  for (const Field& field : piece.fields()) most += most_bits_of_field(field);
  return most;
}

}  // namespace

Pieces::Pieces(std::size_t image_size, std::span<const Layout> own) {
  const std::vector<Pattern>& patterns = built_in_patterns(image_size);
  all_.reserve(patterns.size() + own.size());
  for (const auto& [of, trait, layout, first_field, first_check] : patterns) {
    if (trait == nullptr || replaces_a_check(*trait, *of))
      all_.push_back({layout, of, trait});
    else
      all_.push_back({layout, of, trait, first_field, first_check, false});
  }
  for (const Layout& layout : own)
    if (layout.size <= image_size) all_.push_back({&layout});
  for (Piece& piece : all_) {
    if (piece.is_whole) {
      piece.most_field_bits = most_bits_of(piece);
      whole_.push_back(&piece);
      continue;
    }
    auto family = std::ranges::find_if(families_, [&](const PieceFamily& one) {
      return one.of == piece.of && one.name == piece.trait->family;
    });
    if (family == families_.end())
      family = families_.insert(families_.end(), {piece.of, piece.trait->family, {}});
    family->members.push_back(&piece);
    if (!piece.checks().empty()) ++family->with_checks;
    family->is_silent = family->is_silent && !can_speak(piece);
  }
}

}  // namespace rtcmend
