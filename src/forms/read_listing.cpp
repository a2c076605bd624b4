#include "forms/read_listing.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "forms/alignment.h"
#include "forms/attempt.h"
#include "forms/choice.h"
#include "forms/listing.h"
#include "forms/listing_slips.h"
#include "forms/placing.h"
#include "forms/same_numbers.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

/// The numbers that stand in front on each row, at most a share of its words: what is behind them
/// may be a text column, even one that looks like numbers.
std::vector<Number> leading_numbers(const Listing& listing, std::size_t share) {
  std::vector<Number> numbers;
  for (const ListingRow& row : listing.rows) {
    const std::size_t most = (row.words.size() + share - 1) / share;
    for (std::size_t i = 0; i < most && row.words[i].number; ++i)
      numbers.push_back(*row.words[i].number);
  }
  return numbers;
}

std::vector<std::optional<int>> address_radices(const Listing& listing,
                                                const ReadingOptions& options) {
  if (listing.place == PlaceInText::none) return {std::nullopt};
  if (options.addresses == AddressKind::hex) return {16};
  if (options.addresses == AddressKind::decimal) return {10};
  if (options.addresses == AddressKind::octal) return {8};
  std::vector<std::optional<int>> radices{16};
  for (const int radix : {10, 8}) {
    const bool fits =
        std::all_of(listing.rows.begin(), listing.rows.end(), [&](const ListingRow& row) {
          return !row.address || (row.address->mark == Mark::none && row.address->segment.empty() &&
                                  value_in(row.address->digits, radix));
        });
    if (fits) radices.emplace_back(radix);
  }
  return radices;
}

std::vector<Attempt> all_attempts(const Listing& listing, const std::string& where,
                                  const ReadingOptions& options) {
  std::vector<Attempt> attempts;
  const bool addressed = listing.place != PlaceInText::none;
  for (const NotationCandidate& candidate :
       candidate_notations(leading_numbers(listing, addressed ? 2 : 1), options, addressed))
    for (const std::optional<int> radix : address_radices(listing, options))
      attempts.push_back(attempt_reading(listing, candidate, radix, where));
  return attempts;
}

/// The letters go the way of their bytes to the chip's addresses.
TextColumn text_column(const Attempt& read, const std::string& where,
                       const ReadingOptions& options) {
  if (!read.has_text) return {};
  Attempt letters = read;
  for (ListedByte& cell : letters.cells)
    cell.value = cell.letter != 0 ? DumpByte(static_cast<std::uint8_t>(cell.letter)) : DumpByte();
  ReadingOptions unweighed = options;
  unweighed.likeness = nullptr;
  try {
    const Image placed = placed_image(letters, where, unweighed).image;
    if (placed.size() != read.image->size()) return {};
    TextColumn column(placed.size(), '\0');
    for (std::size_t i = 0; i < placed.size(); ++i)
      column[i] = static_cast<char>(placed.at(static_cast<Address>(i)).value_or(0));
    return column;
  } catch (const Error&) {
    return {};  // a byte that stands twice, with two letters
  }
}

void warn_of_lost_digits(const Listing& listing, const Notation& notation, Remarks& remarks) {
  const std::vector<Number> numbers = leading_numbers(listing, 1);
  // Of 0F0h, what is left may be a number, too.
  const bool zeros = std::any_of(numbers.begin(), numbers.end(),
                                 [](const Number& number) { return number.zero_added; });
  if (notation.padded && !zeros) return;
  const Alignment alignment = alignment_of(listing);
  if (!alignment.odd.empty())
    remarks.warnings.push_back(
        fmt::format("the numbers of {} do not stand below those of the other lines: a digit may be "
                    "lost there",
                    line_list(alignment.odd)));
  else if (!alignment.aligned)
    remarks.warnings.emplace_back(
        "its numbers have as few digits as they need, so that a lost digit would not show: compare "
        "them with their source");
}

Found read_in_one_form(std::string_view text, const std::string& where,
                       const ReadingOptions& given) {
  ReadingOptions options = given;
  Listing listing = listing_of(text, where, options);
  if (listing.rows.empty()) refuse(where, "it holds no bytes of the chip");
  const std::optional<int> twice = keep_first_of_same(listing, where);
  if (twice && !options.radix) options.radix = twice;
  std::vector<Attempt> attempts = all_attempts(listing, where, options);
  if (attempts.empty()) {
    const ListingRow& row = listing.rows.front();
    refuse(place(where, row.line->number),
           "its numbers follow no one way of writing bytes that fits all lines",
           Advice{{"bytes are two hex digits each, ?? for an unknown one, with blanks between them",
                   std::nullopt},
                  {"Another way is named by its radix, its width and its order",
                   Act{Act::Kind::choose, "radix", {}}},
                  {"", Act{Act::Kind::choose, "width", {}}},
                  {"", Act{Act::Kind::choose, "order", {}}}},
           marked_line(*row.line, row.words.empty() ? 0 : row.words.front().begin));
  }
  ChosenReading choice = choose(std::move(attempts), listing, where, options);
  Found found{*choice.attempt.image, {}};
  found.text = text_column(choice.attempt, where, options);
  if (!listing.passed.empty())
    found.remarks.notes.push_back(line_list(listing.passed) + " passed over: no bytes there");
  if (!listing.doubtful.empty())
    found.remarks.warnings.push_back(line_list(listing.doubtful) +
                                     " hold numbers, but not as the rows do: not read");
  found.remarks.add(choice.remarks);
  if (twice)
    found.remarks.notes.emplace_back(
        "each line says its byte twice, in two notations, and they agree");
  else
    warn_of_lost_digits(listing, choice.attempt.notation, found.remarks);
  return found;
}

}  // namespace

Found read_listing(std::string_view text, const std::string& where, const ReadingOptions& options) {
  try {
    Found found = read_in_one_form(text, where, options);
    if (!found.image.all_known()) refuse_misplaced_rows(text, where);
    return found;
  } catch (const Error& error) {
    if (error.about_choice()) throw;
    throw with_all_slips(error, text, where);
  }
}

bool looks_like_listing(std::string_view text) {
  try {
    return !listing_of(text, "", {}).rows.empty();
  } catch (const Error&) {
    // Only a line that is nearly a row is refused, and that among rows.
    return true;
  }
}

}  // namespace rtcmend
