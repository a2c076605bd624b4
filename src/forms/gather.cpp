#include "forms/gather.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

// More than any listing or record file of a chip has, and few enough to lay out in a row.
constexpr std::uint64_t longest_span = 0x100000;

std::string prose(std::uint64_t address) {
  return fmt::format("{:02X}h", address);
}

}  // namespace

void Gather::put(std::uint64_t address, DumpByte value, std::size_t line) {
  const auto [found, fresh] = bytes_.try_emplace(address, Source{value, line});
  if (fresh) return;
  Source& before = found->second;
  if (before.value && value && *before.value != *value)
    refuse(place(where_, line),
           fmt::format("byte {} is {} here, but line {} says {}", prose(address), hex_prose(*value),
                       before.line, hex_prose(*before.value)),
           "keep the line that is right, or read the chip again");
  if (before.line != line) ++twice_;
  if (value) before = {value, line};
}

std::vector<DumpByte> Gather::row(std::uint64_t from, std::uint64_t count) const {
  std::vector<DumpByte> all(count);
  for (auto at = bytes_.lower_bound(from); at != bytes_.end() && at->first - from < count; ++at)
    all[at->first - from] = at->second.value;
  return all;
}

Remarks Gather::remarks(std::uint64_t from, std::size_t size, std::size_t first) const {
  Addresses holes;
  for (std::size_t i = 0; i < size; ++i)
    if (bytes_.count(from + i) == 0) holes.push_back(static_cast<Address>(first + i));
  Remarks remarks;
  if (twice_ > 0)
    remarks.notes.push_back(fmt::format("{} bytes stand there twice, both times the same", twice_));
  if (!holes.empty())
    remarks.warnings.push_back(fmt::format("no line gives {}: unknown", to_prose(holes)));
  return remarks;
}

void Gather::refuse_past(std::uint64_t base) const {
  const auto past = bytes_.lower_bound(base + Image::large_size);
  refuse(place(where_, past->second.line),
         fmt::format("address {} is past the chip, whose last byte is 7Fh", prose(past->first)),
         {{"Give the chip's bytes alone, from address 00h on", std::nullopt},
          {"Or say where they begin in more", Act{Act::Kind::choose, "at", "OFFSET"}}});
}

void Gather::refuse_empty() const {
  refuse(where_, "it holds no bytes of the chip");
}

Image Gather::image() const {
  if (bytes_.empty()) refuse_empty();
  if (end() > Image::large_size) refuse_past(0);
  return based(0, chip_size_for(static_cast<std::size_t>(end()) - 1)).image;
}

Found Gather::based(std::uint64_t base, std::size_t size) const {
  return {image_by_count(row(base, size), where_), remarks(base, size)};
}

Found Gather::chip(const ReadingOptions& options) const {
  if (bytes_.empty()) refuse_empty();
  const bool asked = options.at || options.size;
  if (!asked && end() <= Image::large_size)
    return based(0, chip_size_for(static_cast<std::size_t>(end()) - 1));
  // Offsets count from the first address where that is past any chip's.
  const std::uint64_t from = low() < Image::large_size ? 0 : low();
  if (end() - from > longest_span) refuse_past(from);
  if (!asked && (has_holes() || span() < Image::small_size)) refuse_past(0);
  Found found = chip_in(row(from, end() - from), where_, options);
  if (from > 0)
    found.remarks.notes.push_back(
        fmt::format("the bytes are counted from address {} on", prose(from)));
  found.remarks.add(remarks(from + options.at.value_or(0), found.image.size()));
  return found;
}

}  // namespace rtcmend
