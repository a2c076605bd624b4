#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "layout/layout.h"
#include "layout/trait.h"

namespace rtcmend {

/// One thing that identification weighs by itself: a class (in each of the versions that its main
/// check comes in), a layout of one's own, or what a trait adds to its class.
struct Piece {
  const Layout* layout;             ///< of a trait: what its own can be read in
  const LayoutClass* of = nullptr;  ///< null for a layout of one's own
  const Trait* trait = nullptr;     ///< null for a class by itself
  std::size_t first_field = 0;      ///< from here on its fields count,
  std::size_t first_check = 0;      ///< and its checks
  bool is_whole = true;  ///< stands for a machine's layout, and not only for what is added to one
  double most_field_bits = 0;           ///< of a whole one: what its fields could come to at best
  std::size_t result_count = 0;         ///< how many checks of its own it has,
  std::size_t first_result = 0;         ///< where they begin in Pieces::all_checks(),
  std::size_t first_class_result = 0;   ///< and where those of its class by itself do
  std::vector<const Piece*> company{};  ///< of the traits that it is usually met with

  std::span<const Field> fields() const { return std::span(layout->fields).subspan(first_field); }
  std::span<const Check> checks() const { return std::span(layout->checks).subspan(first_check); }
};

/// The pieces of one class that answer one question.
struct PieceFamily {
  const LayoutClass* of;
  std::string_view name;
  std::vector<const Piece*> members;
  std::size_t with_checks = 0;  ///< how many of them have a check,
  std::size_t all_checks = 0;   ///< and how many checks those are
  /// Whether none of them can ever speak for itself: no check, and every code of every field legal.
  bool is_silent = true;
  /// Whether one of them has company.
  bool is_met_with_others = false;
};

/// All that may be told of an image of one size: what is built in, class by class, and layouts of
/// one's own. Good as long as those are.
class Pieces {
 public:
  Pieces(std::size_t image_size, std::span<const Layout> own);
  Pieces(const Pieces&) = delete;
  Pieces& operator=(const Pieces&) = delete;

  std::span<const Piece> all() const { return all_; }
  /// Where a piece stands among them.
  std::size_t index_of(const Piece& piece) const {
    return static_cast<std::size_t>(&piece - all_.data());
  }
  /// Those that stand for a machine's layout.
  std::span<const Piece* const> whole() const { return whole_; }
  /// The own checks of each piece, one piece after the other.
  std::span<const Check* const> all_checks() const { return checks_; }
  /// Of a class, in its order; none of a layout of one's own.
  std::span<const PieceFamily> families_of(const LayoutClass* of) const;

 private:
  std::vector<Piece> all_;
  std::vector<const Piece*> whole_;
  std::vector<const Check*> checks_;
  std::vector<PieceFamily> families_;
};

}  // namespace rtcmend
