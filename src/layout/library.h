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

/// A class, or what a trait adds to one.
struct Pattern {
  const LayoutClass* of;
  const Trait* trait;  ///< null: the class by itself
  /// Of a trait: the class with it, where its fields need those of the class or it takes the place
  /// of something; else what is its own alone.
  const Layout* layout;
  std::size_t first_field, first_check;  ///< where what is the trait's own begins in that
};
/// Those that fit on a chip of this size, class by class, without the words that only people read:
/// enough to identify. Made once.
const std::vector<Pattern>& built_in_patterns(std::size_t image_size);
/// The checks that a machine with a chip of this size may have: each class, and each class with one
/// trait that has checks, as layouts without fields. Made once.
const std::vector<Layout>& built_in_checks(std::size_t image_size);

/// Text of any embedded file ("chips", "schema/layout"); empty when there is none.
std::string_view embedded_text(std::string_view name);
/// The fixed-disk types that practically all AT-class firmware shares (TechHelp).
const std::vector<DriveType>& common_drive_types();

}  // namespace rtcmend
