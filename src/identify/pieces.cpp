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

/// Where the results of a class by itself begin; its pieces come after it.
std::size_t first_of_class(std::span<const Piece> pieces, const Piece& piece) {
  if (piece.of == nullptr) return piece.first_result;
  return std::ranges::find(pieces, piece.of, &Piece::of)->first_result;
}

std::vector<const Piece*> company_of(const Piece& piece, std::span<const Piece> pieces) {
  std::vector<const Piece*> company;
  if (piece.trait == nullptr) return company;
  for (const MetWith& tie : piece.trait->met_with)
    for (const Piece& other : pieces)
      if (other.of == piece.of && other.trait != nullptr && other.trait->id == tie.trait)
        company.push_back(&other);
  return company;
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
    piece.result_count = piece.checks().size();
    piece.first_result = checks_.size();
    piece.first_class_result = first_of_class(all_, piece);
    piece.company = company_of(piece, all_);
    for (const Check& check : piece.checks()) checks_.push_back(&check);
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
    if (piece.result_count > 0) ++family->with_checks;
    family->all_checks += piece.result_count;
    family->is_silent = family->is_silent && !can_speak(piece);
    family->is_met_with_others = family->is_met_with_others || !piece.company.empty();
  }
}

std::span<const PieceFamily> Pieces::families_of(const LayoutClass* of) const {
  const auto is_its = [&](const PieceFamily& family) { return family.of == of; };
  const auto begin = std::find_if(families_.begin(), families_.end(), is_its);
  const auto end = std::find_if_not(begin, families_.end(), is_its);
  return std::span(families_).subspan(static_cast<std::size_t>(begin - families_.begin()),
                                      static_cast<std::size_t>(end - begin));
}

}  // namespace rtcmend
