#pragma once

#include <random>
#include <vector>

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// The generator that all random tests share; the same seed gives the same images everywhere, for
/// only its raw numbers are used (the distributions of <random> differ between libraries).
using Dice = std::mt19937;

/// 0 to below - 1; below must not be 0.
unsigned roll(Dice& dice, unsigned below);
/// Yes once in `times`.
bool once_in(Dice& dice, unsigned times);

/// A sound image: clock plausible, every field drawn within its legal values, the maker's own bytes
/// empty, sparse or full, followers in line, checks sealed. Every other image is modest, as real
/// machines are (few flags, memory in steps of 64 KiB); the rest draw evenly.
Image random_image(const Layout& layout, Dice& dice);

/// Bytes drawn evenly: no layout's work.
Image random_noise(std::size_t size, Dice& dice);

/// All built-in layouts, loaded once.
const std::vector<Layout>& all_layouts();

}  // namespace rtcmend
