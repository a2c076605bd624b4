#pragma once

#include <array>
#include <bitset>
#include <cstddef>
#include <vector>

#include "base/image.h"
#include "layout/layout.h"
#include "repair/field_index.h"
#include "repair/repair.h"

namespace rtcmend {

/// How a working machine's image compares with others under its layout: the log2 of an unnormalised
/// likelihood, so only differences mean something. What counts, by judgement:
///   an illegal value -8, a field that contradicts those it follows -5, an escape byte left over
///   -2, memory that is no multiple of 64 KiB -4, a field off its default -1, bytes without a known
///   structure: by how common 00, FF and other values are among them.
/// Whether checks hold is not looked at.
class Plausibility {
 public:
  /// All must outlive it; the index is the layout's.
  Plausibility(const Image& image, const Layout& layout, const FieldIndex& index);

  /// By how many bits the image is likelier with the patches than as it stands.
  double gain(const std::vector<Patch>& patches) const;
  /// The bits that illegal values, contradictions and the like cost the image as it stands.
  double strain() const;

 private:
  /// How many bytes without a known structure are 00, FF, and others.
  using Classes = std::array<std::size_t, 3>;
  static std::size_t class_of(std::uint8_t byte);
  static double bits(const Classes& classes);

  const Image& image_;
  const Layout& layout_;
  const FieldIndex& index_;
  std::bitset<Image::large_size> unstructured_;  ///< and known
  Classes classes_{};
};

}  // namespace rtcmend
