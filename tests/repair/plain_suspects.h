#pragma once

#include <vector>

#include "repair/suspects.h"

namespace rtcmend {

/// What suspects() says, found by trying everything: each change is made and every check computed
/// anew. Hundreds of times slower, and the oracle of the quick search.
std::vector<Suspect> plain_suspects(const Image& image, const Layout& layout);

}  // namespace rtcmend
