#include "forms/odd_row.h"

#include <fmt/format.h>
#include <numeric>

#include "base/text.h"
#include "forms/sizes.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

Error error_at(const ListingRow& row, std::size_t column, const std::string& what,
               const std::string& remedy, const std::string& where) {
  return {Refusal::input, place(where, row.line->number), what, remedy,
          marked_line(*row.line, column)};
}

/// The first row that is not as long as most; the last may be shorter.
const CountedRow* other_length(const std::vector<CountedRow>& rows, std::size_t row_size) {
  for (std::size_t i = 0; i + 1 < rows.size(); ++i)
    if (rows[i].bytes != row_size) return &rows[i];
  return nullptr;
}

const CountedRow* same_as_before(const std::vector<CountedRow>& rows) {
  for (std::size_t i = 1; i < rows.size(); ++i)
    if (trim(rows[i].row->line->text) == trim(rows[i - 1].row->line->text)) return &rows[i];
  return nullptr;
}

}  // namespace

std::optional<Error> odd_row(const std::vector<CountedRow>& rows, std::size_t row_size,
                             const std::string& understood, const std::string& where) {
  const std::size_t total =
      std::accumulate(rows.begin(), rows.end(), std::size_t{0},
                      [](std::size_t sum, const CountedRow& row) { return sum + row.bytes; });
  if (const CountedRow* odd = other_length(rows, row_size))
    return error_at(*odd->row, odd->row->words.empty() ? 0 : odd->row->words.back().end,
                    fmt::format("{}, and {} bytes in all are no chip's: this row has {}",
                                understood, total, odd->bytes),
                    "a byte of this row was lost or stands twice; compare it with its source",
                    where);
  const std::string holds = fmt::format("{}: it holds {} bytes", understood, total);
  if (row_size > 1 && is_dump_size(total + row_size))
    return Error(Refusal::input, where, holds + ", and a row more would make a whole dump",
                 "a row is missing, and without addresses nothing says which; get the whole "
                 "listing");
  if (total < row_size || !is_dump_size(total - row_size)) return std::nullopt;
  if (const CountedRow* twice = same_as_before(rows))
    return error_at(*twice->row, 0,
                    holds + ", a row too many, and this row is the same as the one before",
                    "take it out if it stands twice by mistake", where);
  if (row_size == 1) return std::nullopt;
  return Error(Refusal::input, where, holds + ", a row more than a whole dump",
               "take out the row that does not belong there");
}

}  // namespace rtcmend
