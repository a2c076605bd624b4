#pragma once

#include <vector>

#include "layout/layout.h"
#include "repair/provenance.h"
#include "repair/repair.h"

namespace rtcmend {

/// Whether further dumps of a chip differ from this one where nothing ticks.
bool wavers(const Image& image, const std::vector<Image>& again);

/// Whether they differ in bytes of passwords, about which nobody votes.
bool wavers_in_passwords(const Image& image, const Layout& layout, const std::vector<Image>& again);

/// The images that steady bits and the most of the dumps pick, and under which every check of the
/// trouble holds; each as a repair of the first dump. Passwords are left as that has them. None
/// while too much is open.
std::vector<Repair> votes(const Image& image, const Layout& layout, const Trouble& trouble,
                          const std::vector<Image>& again);

}  // namespace rtcmend
