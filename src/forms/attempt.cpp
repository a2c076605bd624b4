#include "forms/attempt.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>

#include "base/text.h"
#include "forms/odd_row.h"
#include "forms/placed_rows.h"
#include "forms/row_bytes.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

// What one observation is worth, in bits.
constexpr double step_fails = -8;
constexpr double text_fits = 6;
constexpr double text_is_similar = -8;
constexpr double text_fails = -8;
constexpr double row_fails = -16;
constexpr std::size_t most_counted = 10;
// Far more than a chip has, so that lines may repeat, and few enough that work stays bounded.
constexpr std::size_t most_bytes = 0x10000;

class Reading {
 public:
  Reading(const Listing& listing, const NotationCandidate& candidate,
          std::optional<int> address_radix, const std::string& where)
      : listing_(listing), where_(where) {
    attempt_.notation = candidate.notation;
    attempt_.address_radix = address_radix;
    attempt_.bits = candidate.bits;
  }

  Attempt read() {
    try {
      if (attempt_.address_radix)
        by_address();
      else
        in_order();
    } catch (const Error& error) {
      fail(error);
    }
    attempt_.has_text = texts_fitting_ > 0;
    if (texts_fitting_ > 0 && texts_failing_ + texts_similar_ == 0)
      attempt_.reasons.emplace_back("the text column says so");
    const auto count = [&](double bits, std::size_t times) {
      attempt_.bits += bits * static_cast<double>(std::min(times, most_counted));
    };
    count(text_fits, texts_fitting_);
    count(text_is_similar, texts_similar_);
    count(text_fails, texts_failing_);
    count(step_fails, failed_steps_);
    count(row_fails, failures_);
    return std::move(attempt_);
  }

 private:
  /// Counts a failure and keeps the first.
  void fail(const Error& error) {
    ++failures_;
    if (!attempt_.error) attempt_.error = error;
  }
  void fail(const ListingRow& row, const std::string& what, const Advice& remedy,
            std::size_t column) {
    fail(Error(Refusal::input, place(where_, row.line->number), what, remedy,
               marked_line(*row.line, column)));
  }

  /// "4 rows of 16 bytes, addresses by 16".
  std::string understood() const {
    std::string text = fmt::format("{} rows", attempt_.rows);
    if (attempt_.row_size > 0)
      text += fmt::format(" of {} byte{}", attempt_.row_size, attempt_.row_size == 1 ? "" : "s");
    if (attempt_.address_radix && step_ > 0) text += fmt::format(", addresses by {}", step_);
    return text;
  }

  void note_text(const RowReading& reading, const ListingRow& row) {
    if (!reading.text) return;
    if (*reading.text == AsciiFit::exact) {
      ++texts_fitting_;
      return;
    }
    ++(*reading.text == AsciiFit::none ? texts_failing_ : texts_similar_);
    differing_.push_back(row.line->number);
  }

  /// What the text column of a row with so many bytes shows for one of them.
  static char letter_of(const RowReading& reading, std::size_t number, std::size_t bytes) {
    return reading.letters.size() == bytes ? reading.letters[number] : '\0';
  }

  /// Judges what a row came to. Returns false when its bytes must not be used.
  bool judge(const RowReading& reading, const ListingRow& row, const std::vector<DumpByte>& bytes,
             std::size_t wanted, bool may_be_short) {
    const std::size_t count = bytes.size();
    if (reading.bad) {
      fail(
          row, problem_with(*reading.bad, attempt_.notation),
          attempt_.notation.radix == 16
              ? Advice("bytes are two hex digits each, ?? for an unknown one, with blanks between "
                       "them")
              : [&]() -> Advice {
            return {{"Compare this line with its source; or say how its numbers are meant",
                     Act{Act::Kind::choose, "radix", {}}}};
          }(),
          reading.bad->begin);
      return false;
    }
    // A text column that ends with the bytes shows that a short row is meant to be one.
    const bool shown = reading.text == AsciiFit::exact;
    const bool short_rightly = count < wanted && (may_be_short || shown);
    if (reading.extra || (wanted > 0 && count != wanted && !short_rightly)) {
      const std::size_t column = row.words.empty() ? 0 : row.words.back().end;
      fail(row,
           fmt::format("{}: this row has {}", understood(),
                       reading.extra ? std::string("more") : std::to_string(count)),
           "a byte of this row was lost or stands twice; compare it with its source", column);
      return false;
    }
    if (reading.text)
      note_text(reading, row);
    else if (row.below.size() == count && !row.below.empty())
      note_text({{}, false, ascii_fit(bytes, row.below)}, row);
    if (reading.remark > 0) ++remarks_;
    return true;
  }

  void finish_remarks() {
    if (!differing_.empty())
      attempt_.remarks.warnings.push_back(
          fmt::format("the text column of {} does not fit its bytes: one of the two was changed",
                      line_list(differing_)));
    if (remarks_ > 0)
      attempt_.remarks.notes.push_back(fmt::format(
          "words behind the bytes passed over on {} line{}", remarks_, remarks_ == 1 ? "" : "s"));
  }

  // Without addresses.

  void in_order() {
    std::vector<CountedRow> counts;
    std::vector<DumpByte> all;
    std::map<std::size_t, std::size_t> sizes;
    for (const ListingRow& row : listing_.rows) {
      if (row.star) {
        fail(row, "a * stands for left out rows, but no addresses say how many",
             "make the dump with addresses, or without leaving out rows", 0);
        continue;
      }
      std::vector<DumpByte> bytes;
      const RowReading reading = take_bytes(row, attempt_.notation, most_bytes, bytes);
      judge(reading, row, bytes, 0, true);
      counts.push_back({&row, bytes.size()});
      ++sizes[bytes.size()];
      for (std::size_t k = 0; k < bytes.size(); ++k)
        attempt_.cells.push_back({attempt_.cells.size(), bytes[k], row.line->number,
                                  letter_of(reading, k, bytes.size())});
      if (attempt_.cells.size() > most_bytes)
        refuse(place(where_, row.line->number), "more bytes than any clock chip holds",
               "give the chip's 64 or 128 bytes alone");
    }
    attempt_.rows = counts.size();
    for (const auto& [size, count] : sizes)
      if (count * 3 >= counts.size() * 2 && counts.size() > 2) attempt_.row_size = size;
    finish_remarks();
    if (is_dump_size(attempt_.cells.size()) || attempt_.row_size == 0) return;
    if (const auto error = odd_row(counts, attempt_.row_size, understood(), where_)) fail(*error);
  }

  // With addresses.

  void by_address() {
    PlacedRows placed = placed_rows(listing_, *attempt_.address_radix, where_);
    if (const std::size_t size = counted_rows(placed.rows, attempt_.notation); size > 0) {
      number_by_bytes(placed.rows, size);
      attempt_.remarks.notes.push_back(
          fmt::format("the numbers in front count the rows, of {} bytes each", size));
    }
    const std::vector<PlacedRow>& rows = placed.rows;
    attempt_.segmented = placed.segmented;
    attempt_.from_file = placed.from_file;
    for (const ListingRow* row : placed.loose)
      fail(*row,
           fmt::format("{} is no address, and the other lines begin with one",
                       in_quotes(row->line->text)),
           "begin every line with an address, or none", 0);
    attempt_.rows =
        static_cast<std::size_t>(std::count_if(rows.begin(), rows.end(), [](const PlacedRow& row) {
          return !row.star && !row.first().words.empty();
        }));
    step_ = common_step(rows);
    attempt_.row_size = filled_step(rows, step_, attempt_.notation, attempt_.rows);
    std::optional<std::uint64_t> expected;
    const PlacedRow* before = nullptr;
    std::vector<DumpByte> before_bytes;
    const PlacedRow* star = nullptr;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const PlacedRow& row = rows[i];
      if (row.star) {
        if (before == nullptr || before_bytes.empty())
          refuse(place(where_, row.line()), "a * with no bytes before it to repeat");
        star = &row;
        expected.reset();
        continue;
      }
      if (star != nullptr) repeat_up_to(*before, before_bytes, row.address, star->line());
      star = nullptr;
      if (expected && *expected != row.address) ++failed_steps_;
      const std::vector<DumpByte> bytes = bytes_at(rows, i);
      if (bytes.empty() && i + 1 == rows.size() && row.first().words.empty()) {
        attempt_.end = row.address;
        cut_at(row);
      }
      const std::uint64_t start = row.address + row.first().skipped;
      for (std::size_t k = 0; k < bytes.size(); ++k)
        attempt_.cells.push_back(
            {start + k, bytes[k], row.line(), letter_of(last_, k, bytes.size())});
      if (attempt_.cells.size() > most_bytes)
        refuse(place(where_, row.line()), "more bytes than any clock chip holds");
      expected = start + bytes.size();
      if (bytes.empty()) expected.reset();
      before = &row;
      before_bytes = bytes;
    }
    if (star != nullptr)
      refuse(place(where_, star->line()), "a * with no address behind it, so its end is unknown",
             "keep the last line of the dump, which is an address alone");
    if (step_ > 0 && failed_steps_ == 0)
      attempt_.reasons.push_back(fmt::format("the addresses step by {}", step_));
    if (const PlacedRow* odd = odd_address(rows))
      fail(odd->first(),
           fmt::format("the address {} does not have as many digits as the others",
                       in_quotes(odd->first().address->digits)),
           "a digit of this address was lost or stands twice", address_column(odd->first()));
    finish_remarks();
  }

  std::vector<DumpByte> bytes_at(const std::vector<PlacedRow>& rows, std::size_t i) {
    const PlacedRow& row = rows[i];
    const ListingRow& first = row.first();
    std::vector<DumpByte> bytes;
    last_ = {};
    if (first.words.empty() && row.parts.size() == 1) return bytes;
    const std::size_t size = attempt_.row_size;
    const std::size_t skipped = first.skipped;
    const std::size_t wanted = size > skipped ? size - skipped : 0;
    const std::size_t limit = wanted > 0 ? wanted : most_bytes;
    const bool last = i + 1 == rows.size() || rows[i + 1].first().words.empty();
    for (std::size_t part = 0; part < row.parts.size(); ++part) {
      const ListingRow& piece = *row.parts[part];
      const bool full = wanted > 0 && bytes.size() >= wanted;
      if (part > 0 && wanted == 0)
        refuse(place(where_, piece.line->number),
               fmt::format("{} is no address, and the lines before begin with one",
                           in_quotes(trim(piece.line->text))),
               "begin every line with an address, or none");
      const RowReading reading = take_bytes(piece, attempt_.notation, limit, bytes);
      last_ = reading;
      if (part > 0 && full) {
        if (reading.text) note_text(reading, piece);
        attempt_.remarks.notes.push_back(fmt::format(
            "line {} has no address and is no part of a row: passed over", piece.line->number));
        if (!reading.text && reading.extra)
          fail(piece, fmt::format("{}: this line has bytes, but no address", understood()),
               "begin every line with an address, or none", 0);
        continue;
      }
      const bool goes_on = part + 1 < row.parts.size();
      const bool ok = judge(reading, piece, bytes, goes_on ? 0 : wanted,
                            last || ends_before_gap(rows, i, bytes.size()));
      if (!ok) return bytes;
    }
    return bytes;
  }

  /// Whether a short row is followed by just the address that it ends at.
  static bool ends_before_gap(const std::vector<PlacedRow>& rows, std::size_t i,
                              std::size_t count) {
    const PlacedRow& next = rows[i + 1];
    return !next.star && next.address == rows[i].address + rows[i].first().skipped + count;
  }

  /// Fills what a `*` stands for: the bytes of the row before, again and again up to `end`.
  void repeat_up_to(const PlacedRow& before, const std::vector<DumpByte>& bytes, std::uint64_t end,
                    std::size_t star) {
    if (end < before.address || end - before.address > most_bytes)
      refuse(place(where_, star), "what the * stands for is past the chip");
    // If the row in front of the * got lost, or one behind it, the * stands for too much.
    attempt_.remarks.warnings.push_back(fmt::format(
        "the * on line {} stands for {} bytes like those before; a row lost beside it "
        "would not show, and a dump without * (-v) has them all",
        star, end - before.address - std::min<std::uint64_t>(bytes.size(), end - before.address)));
    for (std::uint64_t i = bytes.size(); i < end - before.address; ++i)
      attempt_.cells.push_back({before.address + i, bytes[i % bytes.size()], star});
  }

  /// The address behind the last byte: what stands past it only fills up a word.
  void cut_at(const PlacedRow& end) {
    while (!attempt_.cells.empty() && attempt_.cells.back().address >= end.address) {
      const ListedByte& cell = attempt_.cells.back();
      if (cell.value && *cell.value != 0)
        refuse(place(where_, end.line()),
               fmt::format("the listing ends at {:X}h, but the rows before go on to {:X}h",
                           end.address, cell.address),
               "compare the last lines with their source");
      attempt_.cells.pop_back();
    }
  }

  const Listing& listing_;
  std::string where_;
  Attempt attempt_;
  std::uint64_t step_ = 0;
  std::size_t texts_fitting_ = 0;
  std::size_t texts_similar_ = 0;
  std::size_t texts_failing_ = 0;
  std::size_t failed_steps_ = 0;
  std::size_t failures_ = 0;
  std::size_t remarks_ = 0;
  std::vector<std::size_t> differing_;
  RowReading last_;  ///< of the row that bytes_at() read
};

}  // namespace

Attempt attempt_reading(const Listing& listing, const NotationCandidate& candidate,
                        std::optional<int> address_radix, const std::string& where) {
  return Reading(listing, candidate, address_radix, where).read();
}

}  // namespace rtcmend
