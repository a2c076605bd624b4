#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "images/random_image.h"
#include "layout/layout.h"

namespace rtcmend {

/// How a planted dump comes to the one who has to mend it.
enum class Arrival { read_once, typed_with_text, typed, read_twice, read_thrice };

/// A dump with a failed check, and what would put it right. Made without any of the code that is
/// to find it out.
struct Plant {
  std::string_view kind;  ///< a name from the tables in planted_damage.cpp
  Arrival arrival = Arrival::read_once;
  Image right;                 ///< what an ideal mender would hand back
  Image dump;                  ///< what came
  std::string text{};          ///< the text column, where there is one
  std::vector<Image> again{};  ///< further dumps of the same chip
  /// Whether the damage is one that no list of small repairs can hold.
  bool beyond_repair = false;
};

/// One plant, its arrival and its damage drawn by the shares written down in planted_damage.cpp.
/// A check of the layout fails in its dump.
Plant any_plant(const Layout& layout, Dice& dice);
/// One with this arrival and kind.
Plant plant_of(Arrival arrival, std::string_view kind, const Layout& layout, Dice& dice);

/// How they are drawn, for who must know: the share of a kind among the damages of an arrival, and
/// among the slips that two slips are drawn from (0 to 1); the bytes that may be hit; what a digit
/// is taken for; and the text beside an image.
double share_of_kind(Arrival arrival, std::string_view kind);
double share_of_slip(std::string_view kind);
Addresses guarded(const Layout& layout);
std::string_view digits_taken_for(unsigned digit);
std::string text_of(const Image& image);

}  // namespace rtcmend
