#include "forms/placing.h"

#include <fmt/format.h>

#include "forms/gather.h"

namespace rtcmend {

namespace {

bool is_chip_size(std::uint64_t span) {
  return span == Image::small_size || span == Image::large_size;
}

/// A buffer of which a part is given: it begins where memory of a chip's size would.
Found of_buffer(const Gather& bytes) {
  const std::uint64_t base = bytes.low() / Image::large_size * Image::large_size;
  if (bytes.end() > base + Image::large_size) bytes.refuse_past(base);
  Found found = bytes.based(base, chip_size_for(static_cast<std::size_t>(bytes.end() - base) - 1));
  found.remarks.warnings.push_back(
      fmt::format("the buffer is taken to begin at {:02X}h, the multiple of 80h below", base));
  return found;
}

Found by_address(const Gather& bytes, const Attempt& attempt, const std::string& where,
                 const ReadingOptions& options) {
  // A file that ends where a RAM part does is one, even with rows missing.
  const std::uint64_t file_end = attempt.from_file ? attempt.end.value_or(bytes.end()) : 0;
  const bool ram_part = is_dump_size(file_end) && !is_chip_size(file_end) &&
                        bytes.end() <= file_end && (attempt.end || bytes.low() == 0);
  if (ram_part) {
    Found found{image_by_count(bytes.row(0, file_end), where)};
    found.remarks = bytes.remarks(0, file_end, Image::ram_start);
    return found;
  }
  const bool whole = !bytes.has_holes() && is_dump_size(bytes.span());
  if (whole && (attempt.segmented || bytes.end() > Image::large_size)) {
    Found found = chip_in(bytes.row(bytes.low(), bytes.span()), where, options);
    found.remarks.add(bytes.remarks(bytes.low(), bytes.span()));
    return found;
  }
  if (attempt.segmented && !is_chip_size(bytes.span())) return of_buffer(bytes);
  const bool elsewhere = attempt.segmented || bytes.end() > Image::large_size;
  if (elsewhere && is_chip_size(bytes.span())) return bytes.based(bytes.low(), bytes.span());
  return bytes.chip(options);
}

}  // namespace

Found placed_image(const Attempt& attempt, const std::string& where,
                   const ReadingOptions& options) {
  if (!attempt.address_radix) {
    std::vector<DumpByte> values;
    values.reserve(attempt.cells.size());
    for (const ListedByte& cell : attempt.cells) values.push_back(cell.value);
    Found found = chip_in(values, where, options);
    warn_of_halves(found);
    return found;
  }
  Gather bytes(where);
  for (const ListedByte& cell : attempt.cells) bytes.put(cell.address, cell.value, cell.line);
  if (bytes.empty()) bytes.refuse_empty();
  if (options.at || options.size) return bytes.chip(options);
  return by_address(bytes, attempt, where, options);
}

}  // namespace rtcmend
