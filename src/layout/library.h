#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "layout/layout.h"
#include "layout/trait.h"

namespace rtcmend {

// A built-in layout is named by its class and its traits: "at", "at+sum-40-7d+memory-34".

/// Names of every class, each followed by those of the class with one of its traits, in the order
/// of the families: enough to offer and to list, though traits of several families go together.
std::vector<std::string> built_in_layouts();
/// Whether a name leads to a built-in layout.
bool is_built_in(std::string_view name);
/// A built-in layout, its id in the order of the families whatever that of the name. Each call
/// makes it anew; keep the result. Refuses (Error) an unknown class or trait with the nearest ones,
/// and traits that cannot go together.
Layout built_in_layout(std::string_view name);
/// A layout file of one's own that says the same as a built-in layout, to be changed.
std::string own_layout_file(std::string_view name);

/// Every class, without the words that only people read; made once.
const std::vector<LayoutClass>& built_in_classes();
/// Every trait, likewise.
const std::vector<Trait>& built_in_traits();
/// With those words; made anew by each call.
std::vector<LayoutClass> whole_classes();
std::vector<Trait> whole_traits();

/// What each of several layouts is made of.
struct Patterns {
  struct About {
    const LayoutClass* of;
    const Trait* trait;  ///< null: the class by itself
    std::size_t first_field, first_check;  ///< where what is the trait's own begins
  };
  std::vector<Layout> layouts;
  std::vector<About> about;  ///< of each, in the same order
};
/// Every class that fits on a chip of this size, and each with one trait: without the words that
/// only people read, enough to identify and to evaluate checks. Made once.
const Patterns& built_in_patterns(std::size_t image_size);

/// Text of any embedded file ("chips", "schema/layout"); empty when there is none.
std::string_view embedded_text(std::string_view name);
/// The fixed-disk types that practically all AT-class firmware shares (TechHelp).
const std::vector<DriveType>& common_drive_types();

}  // namespace rtcmend
