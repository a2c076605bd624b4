#pragma once

#include <string>
#include <vector>

#include "layout/layout.h"

namespace rtcmend {

/// The map that a kind of machine shares.
struct LayoutClass {
  Layout core;                        ///< by itself, without any trait
  std::vector<std::string> families;  ///< of its traits, in the order in which names list them

  friend bool operator==(const LayoutClass&, const LayoutClass&) = default;
};

/// "Usually met together": evidence, never a certainty.
struct MetWith {
  std::string trait;
  std::string standing;  ///< "8 of 8 images"
  friend bool operator==(const MetWith&, const MetWith&) = default;
};

/// What one firmware of a class has and another has not.
struct Trait {
  std::string id;                     ///< "sum-40-7d"
  std::string family;                 ///< traits of one family exclude each other
  std::vector<std::string> of;        ///< the classes that may have it
  std::vector<std::string> replaces;  ///< fields and checks of the class that it takes the place of
  std::vector<std::string> not_with;  ///< traits of other families that it excludes
  std::vector<MetWith> met_with;
  bool presumed = false;  ///< taken where nothing speaks against it and its relatives are ruled out
  Layout part;            ///< its own fields and checks, with their words

  friend bool operator==(const Trait&, const Trait&) = default;
};

/// Why two traits of one class cannot be one firmware's; empty when they can.
std::string why_not_together(const Trait& a, const Trait& b);

/// A class with these traits, in the order of the families. Refuses (Error) two that cannot go
/// together, and one of another class.
Layout assemble(const LayoutClass& layout_class, const std::vector<const Trait*>& traits);

}  // namespace rtcmend
