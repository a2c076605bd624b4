#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"

namespace rtcmend {

/// One place of a typed listing that cannot be meant as it stands.
struct ListingSlip {
  std::size_t line;    ///< counted from 1
  std::size_t column;  ///< in the line, from 0
  std::string what;    ///< "\"IB\" is no address"
  std::string meant;   ///< what it may have been meant to be, in words: "did you mean 1B?"
  std::string shown;   ///< the line, and a mark below the place
  /// It is an address that the rows around it contradict.
  bool misplaces = false;
};

/// All slips of a listing of two-digit hex bytes: letters in place of digits, addresses that are
/// none or out of step, bytes with a digit too few or too many, rows with a byte too few or too
/// many. Empty where the lines have no common form, by which slips could be told. For texts that
/// could not be read, or not whole: it judges no others.
std::vector<ListingSlip> listing_slips(std::string_view text, const std::string& where);

/// Refuses (Error) a listing in which a row's address is contradicted by those around it, and what
/// they ask for stands nowhere: its bytes would be read into another place.
void refuse_misplaced_rows(std::string_view text, const std::string& where);

/// The refusal of a listing with all that listing_slips() finds in it: the first in front, as the
/// reader told it when it told of that one, and the others behind it.
Error with_all_slips(const Error& error, std::string_view text, const std::string& where);

}  // namespace rtcmend
