#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace rtcmend {

/// How many columns a terminal takes for a text without controls: letters of East Asian scripts
/// take two, accents that stand by themselves none.
std::size_t columns_of(std::string_view text);

/// A text on at most `most` columns: what is too long loses its middle, for a name's end says more
/// than its beginning. `most` is 8 or more.
std::string shortened(std::string_view text, std::size_t most);
/// The same, losing its end: for sentences.
std::string cut_short(std::string_view text, std::size_t most);

}  // namespace rtcmend
