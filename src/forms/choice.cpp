#include "forms/choice.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "forms/placing.h"

namespace rtcmend {

namespace {

// In bits: how far ahead a reading must be to be taken, what a custom of programs is worth, and
// what it costs a reading when its bytes leave holes or are more or fewer than a chip's.
constexpr double far_ahead = 10;
constexpr double custom = 12;
constexpr double misfit = -12;
constexpr double most_likeness = 40;

std::size_t digits_of_words(const Listing& listing) {
  for (const ListingRow& row : listing.rows)
    if (!row.words.empty() && row.words.front().number)
      return row.words.front().number->digits.size();
  return 0;
}

bool words_are_marked(const Listing& listing) {
  for (const ListingRow& row : listing.rows)
    if (!row.words.empty() && row.words.front().number)
      return row.words.front().number->mark == Mark::hex;
  return false;
}

/// True when every row is one word: bytes without blanks between them.
bool rows_are_words(const Listing& listing) {
  return std::all_of(listing.rows.begin(), listing.rows.end(),
                     [](const ListingRow& row) { return row.words.size() < 2; });
}

void add_custom(Attempt& attempt, const std::string& reason) {
  attempt.bits += custom;
  attempt.custom += custom;
  attempt.reasons.push_back(reason);
}

/// The address of the first row that has one.
const LineAddress* first_address(const Listing& listing) {
  for (const ListingRow& row : listing.rows)
    if (row.address) return &*row.address;
  return nullptr;
}

/// What the dump programs of Unix print: bare addresses of seven digits (six when asked for hex or
/// octal ones), and words as the processor has them, low byte first on nearly all.
bool is_unix_dump(const Listing& listing, const Attempt& attempt) {
  const LineAddress* address = first_address(listing);
  if (listing.place != PlaceInText::bare || !attempt.from_file || address == nullptr) return false;
  return address->digits.size() == 6 || address->digits.size() == 7;
}

void weigh_customs(Attempt& attempt, const Listing& listing, bool has_text) {
  const Notation& notation = attempt.notation;
  const std::size_t digits = digits_of_words(listing);
  // Where a text column has its say, custom has none.
  if (notation.width > 1 && !has_text) {
    const bool low = notation.order == ByteOrder::low_first;
    const bool colon = listing.place == PlaceInText::marked && attempt.from_file && digits == 4;
    if (low && is_unix_dump(listing, attempt))
      add_custom(attempt, "behind addresses of six or seven digits programs print words so");
    if (!low && colon && !words_are_marked(listing))
      add_custom(attempt, "behind long addresses with a colon programs print groups so");
    if (!low && rows_are_words(listing) && digits == 16 && !words_are_marked(listing))
      add_custom(attempt, "the rows are written without a blank");
  }
  const bool all_pairs = notation.groups && digits == 2;
  const auto usual = [&] {
    attempt.bits += custom;
    attempt.custom += custom;
  };
  if (all_pairs || (notation.radix == 16 && words_are_marked(listing))) usual();
  const LineAddress* address = first_address(listing);
  if (attempt.address_radix == 16 && listing.place == PlaceInText::marked &&
      words_are_marked(listing) && address != nullptr && address->mark == Mark::none)
    return;  // what marks its bytes as hex and not its addresses may well count in decimal
  if (attempt.address_radix == 16 && !is_unix_dump(listing, attempt)) usual();
}

void finish(Attempt& attempt, const std::string& where, const ReadingOptions& options) {
  if (attempt.error) {
    attempt.bits += misfit;
    return;
  }
  try {
    Found found = placed_image(attempt, where, options);
    attempt.image = found.image;
    if (found.adapted || !found.remarks.warnings.empty()) attempt.bits += misfit;
    attempt.remarks.add(found.remarks);
  } catch (const Error& error) {
    attempt.error = error;
    attempt.bits += 2 * misfit;
    return;
  }
  if (!options.likeness) return;
  const double bits = std::min(options.likeness(*attempt.image), most_likeness);
  attempt.bits += bits;
  if (bits >= far_ahead) attempt.reasons.emplace_back("its checks and clock are those of a chip");
}

std::string address_words(const Attempt& attempt) {
  if (!attempt.address_radix || *attempt.address_radix == 16) return "";
  return *attempt.address_radix == 10 ? ", addresses decimal" : ", addresses octal";
}

std::string reading_words(const Attempt& attempt) {
  return in_words(attempt.notation) + address_words(attempt);
}

/// What has to be chosen for one reading among those it is compared with.
std::vector<Act> choices_for(const Attempt& one, const std::vector<const Attempt*>& others) {
  std::vector<Act> acts;
  const auto differs = [&](auto part) {
    return std::any_of(others.begin(), others.end(),
                       [&](const Attempt* other) { return part(one) != part(*other); });
  };
  const auto choose = [&](const char* what, std::string value) {
    acts.push_back({Act::Kind::choose, what, std::move(value)});
  };
  if (differs([](const Attempt& a) { return a.notation.radix; }))
    choose("radix", std::to_string(one.notation.radix));
  if (differs([](const Attempt& a) { return a.notation.width; }))
    choose("width", std::to_string(one.notation.width));
  if (one.notation.width > 1 && differs([](const Attempt& a) { return a.notation.order; }))
    choose("order", one.notation.order == ByteOrder::low_first ? "low" : "high");
  if (differs([](const Attempt& a) { return a.address_radix; }) && one.address_radix)
    choose("addresses", *one.address_radix == 16   ? "hex"
                        : *one.address_radix == 10 ? "decimal"
                                                   : "octal");
  return acts;
}

/// "radix 8, width 2".
std::string in_words(const std::vector<Act>& acts) {
  std::vector<std::string> words;
  for (const Act& act : acts) words.push_back(act.subject + " " + act.value);
  return join(words, ", ");
}

/// The first row of bytes, "00: 21 00 ..."; from the first byte that is known.
std::string first_row(const Image& image) {
  std::size_t at = 0;
  while (at + 1 < image.size() && !image.known(static_cast<Address>(at))) ++at;
  std::string text = fmt::format("{:02X}:", at);
  for (std::size_t end = std::min(at + 12, image.size()); at < end; ++at) {
    const auto byte = image.at(static_cast<Address>(at));
    text += " " + (byte ? hex2(*byte) : std::string("??"));
  }
  return text + " ...";
}

[[noreturn]] void refuse_unsure(const std::vector<const Attempt*>& close,
                                const std::string& where) {
  std::string shown;
  Advice advice;
  for (const Attempt* attempt : close) {
    std::vector<const Attempt*> others;
    std::copy_if(close.begin(), close.end(), std::back_inserter(others),
                 [&](const Attempt* other) { return other != attempt; });
    const std::vector<Act> acts = choices_for(*attempt, others);
    for (std::size_t i = 0; i < acts.size(); ++i)
      advice.add({i == 0 && advice.empty() ? "name one of these readings" : "", acts[i]});
    shown += fmt::format("\n  {}: {}\n    {}", in_words(acts), reading_words(*attempt),
                         first_row(*attempt->image));
  }
  refuse(where,
         fmt::format("it can be read in {} ways, and nothing says clearly which is meant",
                     close.size()),
         advice, shown);
}

}  // namespace

ChosenReading choose(std::vector<Attempt> attempts, const Listing& listing,
                     const std::string& where, const ReadingOptions& options) {
  const bool has_text = std::any_of(attempts.begin(), attempts.end(),
                                    [](const Attempt& attempt) { return attempt.has_text; });
  for (Attempt& attempt : attempts) {
    weigh_customs(attempt, listing, has_text);
    finish(attempt, where, options);
  }
  std::stable_sort(attempts.begin(), attempts.end(),
                   [](const Attempt& a, const Attempt& b) { return a.bits > b.bits; });
  Attempt& best = attempts.front();
  if (best.error) throw *best.error;
  std::vector<const Attempt*> close{&best};
  bool others = false;
  const Attempt* unusual = nullptr;
  for (const Attempt& attempt : attempts) {
    const bool known =
        attempt.error || std::any_of(close.begin(), close.end(), [&](const Attempt* one) {
          return *one->image == *attempt.image;
        });
    if (known) continue;
    others = true;
    // Only that such listings are usually read so puts the best one ahead of this.
    const bool by_custom = best.bits - best.custom < attempt.bits - attempt.custom + far_ahead;
    if (by_custom && unusual == nullptr) unusual = &attempt;
    if (attempt.bits > best.bits - far_ahead) close.push_back(&attempt);
  }
  if (close.size() > 1) refuse_unsure(close, where);
  const bool plain = best.notation.radix == 16 && best.notation.width == 1 &&
                     best.address_radix.value_or(16) == 16;
  ChosenReading choice{best, best.remarks};
  const std::string reasons = best.reasons.empty() ? "" : ": " + join(best.reasons, "; ");
  if (!plain || others)
    choice.remarks.notes.insert(choice.remarks.notes.begin(),
                                "read as " + reading_words(best) + reasons);
  if (unusual != nullptr)
    choice.remarks.warnings.push_back(
        fmt::format("only custom says that it is read so; {} reads it as {}, from {}",
                    in_words(choices_for(*unusual, {&best})), reading_words(*unusual),
                    first_row(*unusual->image)));
  return choice;
}

}  // namespace rtcmend
