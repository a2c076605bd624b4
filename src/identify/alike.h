#pragma once

#include <string>
#include <vector>

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// What would tell layouts apart that fit an image equally well, a sentence for each that is not
/// the first. At least two layouts.
std::vector<std::string> what_settles(const std::vector<const Layout*>& tied, const Image& image);

/// " because 40h is 00": why two layouts that differ in what a check covers come to the same on
/// this image. Empty when that is not the reason.
std::string because_of(const Layout& one, const Layout& other, const Image& image);

/// Whether `plain` can stand in for `other` on this image, in reading, judging and sealing alike:
/// `other` has all its fields, seals the same bytes to the same values, and what it adds (fields,
/// checks over empty areas) the image is silent about.
bool can_stand_in(const Layout& plain, const Layout& other, const Image& image);

}  // namespace rtcmend
