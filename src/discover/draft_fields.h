#pragma once

#include <nlohmann/json.hpp>

#include "discover/trace.h"

namespace rtcmend {

/// A traced field as an entry of a layout file: where it stands, what it means as far as was seen,
/// and where it was at rest. What is open about it makes it shown only.
nlohmann::ordered_json field_entry(const TracedField& field, const std::string& id,
                                   const Image& rest);

/// The same value once more at other bits, following the field `of`.
nlohmann::ordered_json copy_entry(const TracedField& field, const std::string& id,
                                  const std::string& of, const std::vector<Bit>& bits,
                                  const Image& rest);

/// How many places of neighbouring bits these are.
std::size_t count_pieces(const std::vector<Bit>& bits);

/// A text of at most so many bytes, with no letter cut in two.
std::string cut(std::string text, std::size_t most);

}  // namespace rtcmend
