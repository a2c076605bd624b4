#pragma once

#include <string>

#include "desk/open.h"
#include "forms/form.h"
#include "judge/examine.h"
#include "layout/layout.h"

namespace rtcmend {

/// A dump and what was found out about it, put together for rendering. It only refers to its parts,
/// which must outlive it.
struct Card {
  const std::string& name;  ///< where the dump came from
  const Dump& dump;
  const Layout& layout;
  const Examination& examination;
};

/// An opened dump as it was read.
inline Card card_of(const Opened& opened) {
  return {opened.name, opened.dump, *opened.layout, opened.examination};
}

}  // namespace rtcmend
