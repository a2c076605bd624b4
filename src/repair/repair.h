#pragma once

#include <string>
#include <vector>

#include "base/image.h"
#include "check/check.h"
#include "layout/layout.h"

namespace rtcmend {

/// One byte that a repair changes.
struct Patch {
  Address at = 0;
  std::uint8_t from = 0, to = 0;

  friend bool operator==(const Patch&, const Patch&) = default;
};

/// The image with the patches applied.
Image patched(const Image& image, const std::vector<Patch>& patches);
/// The patches that turn one image into another of the same size, by address; both must know the
/// same bytes.
std::vector<Patch> patches_between(const Image& from, const Image& to);

/// A change that makes failed checks hold, and how likely that damage was before it was seen.
struct Repair {
  std::string id;    ///< "bit-12-3"
  std::string text;  ///< what went wrong, if this is it
  std::vector<Patch> patches;
  double prior = 0;
};

/// The checks of a layout that fail in an image, and those that hold, which a repair must leave so.
struct Trouble {
  std::vector<const Check*> failing, holding;
};
Trouble trouble_in(const Image& image, const Layout& layout);

/// The failing checks that hold after the patches; none when they break one that holds now.
std::vector<const Check*> mended_by(const std::vector<Patch>& patches, const Layout& layout,
                                    const Trouble& trouble, const Image& image);

/// One bit, one byte, or two swapped bytes, among those that the failing checks cover or store,
/// that make at least one of them hold. Bytes with bits of concealed fields are left out: nothing
/// is guessed about passwords.
std::vector<Repair> damage_repairs(const Image& image, const Layout& layout,
                                   const Trouble& trouble);

/// Sealing the given failing checks anew: right when a field was changed without it (the text names
/// fields whose other value would make the checks hold), or when the check bytes were never right.
Repair sealing_repair(const Image& image, const Layout& layout,
                      const std::vector<const Check*>& failing);

}  // namespace rtcmend
