#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/image.h"
#include "check/check.h"
#include "layout/layout.h"
#include "repair/causes.h"

namespace rtcmend {

/// The bytes in a row of the listings that people copy.
inline constexpr std::size_t bytes_in_a_row = 16;

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
  bool seals = false;  ///< changes check bytes alone, and takes the settings as they are
};

/// The checks of a layout that fail in an image, and those that hold, which a repair must leave so.
struct Trouble {
  std::vector<const Check*> failing, holding;
};
Trouble trouble_in(const Image& image, const Layout& layout);

/// The failing checks that hold after the patches; none when they break one that holds now.
std::vector<const Check*> mended_by(const std::vector<Patch>& patches, const Layout& layout,
                                    const Trouble& trouble, const Image& image);

/// The bytes that a repair may touch and the failing checks rest on, ascending. Bytes with bits of
/// concealed fields are left out: nothing is guessed about passwords.
struct Reach {
  Addresses open;
  double tied = 0;  ///< how many bytes might be damaged, tried or not
};
Reach reach_of(const Image& image, const Layout& layout, const Trouble& trouble);

/// One bit, one byte, or two swapped bytes that make at least one of the failing checks hold.
std::vector<Repair> damage_repairs(const Image& image, const Reach& reach, const Trouble& trouble,
                                   Origin origin);

/// By how many bits an image fits better with some bytes changed.
using Gain = std::function<double(const std::vector<Patch>&)>;

/// One or two slips of a hand that copied the bytes, which make at least one of the failing checks
/// hold. Of two slips the likeliest by shares and gain.
std::vector<Repair> slip_repairs(const Image& image, const Reach& reach, const Trouble& trouble,
                                 const Gain& gain);

/// What a hand that lost its place in a row leaves behind, where a failing check holds without it:
/// a byte or digit written twice and another left out, or two rows exchanged. The likeliest by
/// share and gain; passwords are left where they are.
std::vector<Repair> lost_place_repairs(const Image& image, const Layout& layout,
                                       const Trouble& trouble, const Gain& gain);

/// Sealing the given failing checks anew: right when a field was changed without it (the text names
/// fields whose other value would make the checks hold), or when the check bytes were never right.
/// Its prior has the gain of the image before such a change in it.
Repair sealing_repair(const Image& image, const Layout& layout,
                      const std::vector<const Check*>& failing, Origin origin, const Gain& gain);

}  // namespace rtcmend
