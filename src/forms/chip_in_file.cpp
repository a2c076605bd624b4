#include "forms/chip_in_file.h"

#include <algorithm>
#include <fmt/format.h>
#include <span>

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

namespace {

using Bytes = std::vector<DumpByte>;

// Evidence in bits from which on something is taken for a chip, and for a chip among others.
constexpr double like_a_chip = 1;
constexpr double surely_a_chip = 10;
constexpr std::size_t bank = 128;

Bytes part(const Bytes& bytes, std::size_t at, std::size_t count) {
  const auto begin = bytes.begin() + static_cast<std::ptrdiff_t>(at);
  return {begin, begin + static_cast<std::ptrdiff_t>(count)};
}

Image image_of(const Bytes& bytes, std::size_t at, std::size_t size) {
  return image_by_count(part(bytes, at, size), "");
}

bool looks(const Image& image, const ReadingOptions& options, double bits) {
  return !options.likeness || options.likeness(image) >= bits;
}

constexpr const char* whole_sizes =
    "a whole dump has 64 or 128 bytes; the RAM part alone, 0Eh and up, has 50 or 114";

[[noreturn]] void refuse_size(const Bytes& bytes, const std::string& where) {
  const bool large = bytes.size() > Image::large_size;
  refuse(where,
         fmt::format("it holds {} byte{}, and no dump of a clock chip has that size", bytes.size(),
                     bytes.size() == 1 ? "" : "s"),
         large ? [&]() -> Advice { return {{whole_sizes, std::nullopt},
                        {"The chip's bytes can be taken out of more, by where they begin and how "
                         "many there are",
                         Act{Act::Kind::choose, "at", "OFFSET"}},
                        {"", Act{Act::Kind::choose, "size", "64"}}}; }()
               : Advice(whole_sizes));
}

Found at_the_place_given(const Bytes& bytes, const std::string& where,
                         const ReadingOptions& options) {
  const std::size_t at = options.at.value_or(0);
  if (at >= bytes.size())
    refuse(where, fmt::format("it holds {} bytes, none at {}", bytes.size(), at),
           "it is counted from 0, the first byte");
  const std::size_t rest = bytes.size() - at;
  if (!options.size && !is_dump_size(rest))
    refuse(where, fmt::format("from {} on it holds {} bytes, no chip's size", at, rest),
           Advice{{"Say how many bytes the chip has", Act{Act::Kind::choose, "size", "64"}}});
  const bool ram_part =
      options.size && is_dump_size(rest) && rest + Image::ram_start == *options.size;
  const std::size_t size = ram_part ? rest : options.size.value_or(rest);
  if (size > rest)
    refuse(where, fmt::format("from {} on it holds {} bytes, fewer than {}", at, rest, size),
           Advice{{"Another place, or fewer bytes", Act{Act::Kind::choose, "size", "64"}}});
  return {image_of(bytes, at, size)};
}

std::optional<Found> short_by_a_few(const Bytes& bytes) {
  for (const std::size_t whole :
       {std::size_t{64}, std::size_t{128}, std::size_t{50}, std::size_t{114}}) {
    const bool chip = whole == Image::small_size || whole == Image::large_size;
    const std::size_t most = chip ? 3 : 1;
    if (bytes.size() >= whole || bytes.size() + most < whole) continue;
    Bytes filled = bytes;
    filled.resize(whole);
    const std::size_t missing = whole - bytes.size();
    return Found{image_by_count(filled, ""),
                 {{},
                  {fmt::format("it holds {} bytes, {} fewer than {}: the last are taken to be "
                               "missing and left unknown; if others are, every byte behind them "
                               "stands too low",
                               bytes.size(), missing, whole)}}};
  }
  return std::nullopt;
}

bool is_terminator(const Bytes& tail) {
  return std::all_of(tail.begin(), tail.end(), [](DumpByte byte) {
    constexpr std::string_view marks("\n\r\x1A\0", 4);
    return byte && marks.find(static_cast<char>(*byte)) != std::string_view::npos;
  });
}

std::optional<Found> with_terminator(const Bytes& bytes) {
  for (const std::size_t whole :
       {std::size_t{64}, std::size_t{128}, std::size_t{50}, std::size_t{114}}) {
    if (bytes.size() <= whole || bytes.size() > whole + 2) continue;
    const Bytes tail = part(bytes, whole, bytes.size() - whole);
    if (!is_terminator(tail)) continue;
    std::vector<std::string> names;
    for (const DumpByte byte : tail) names.push_back(hex_prose(*byte));
    return Found{image_of(bytes, 0, whole),
                 {{},
                  {fmt::format("it holds {} bytes: behind {}, {} is taken for an end mark and left "
                               "out; if it is a byte of the chip, another one stands twice",
                               bytes.size(), whole, join(names, " "))}}};
  }
  return std::nullopt;
}

bool repeats(const Bytes& bytes, std::size_t period) {
  if (bytes.size() % period != 0 || bytes.size() == period) return false;
  for (std::size_t i = period; i < bytes.size(); ++i)
    if (bytes[i] != bytes[i - period]) return false;
  return true;
}

std::optional<Found> repeated(const Bytes& bytes) {
  for (const std::size_t size : {Image::small_size, Image::large_size})
    if (repeats(bytes, size))
      return Found{image_of(bytes, 0, size),
                   {{fmt::format("it holds {} bytes, the same {} {} times: read once", bytes.size(),
                                 size, bytes.size() / size)},
                    {}}};
  return std::nullopt;
}

std::optional<Found> with_fill(const Bytes& bytes, const ReadingOptions& options) {
  const DumpByte fill = bytes.back();
  if (!fill || (*fill > 0x00 && *fill < 0xFF)) return std::nullopt;
  std::size_t end = bytes.size();
  while (end > 0 && bytes[end - 1] == fill) --end;
  if (end == 0 || end > Image::large_size) return std::nullopt;
  const std::size_t size = end > Image::small_size ? Image::large_size : Image::small_size;
  const Image image = image_of(bytes, 0, size);
  const bool judged = static_cast<bool>(options.likeness);
  if (!looks(image, options, like_a_chip)) return std::nullopt;
  Found found{image,
              {{fmt::format("it holds {} bytes, nothing but {} behind the first {}: those are read",
                            bytes.size(), hex2(*fill), size)},
               {}}};
  if (!judged || size == Image::small_size)
    found.remarks.warnings.push_back(
        size == Image::small_size
            ? "the chip is taken to have 64 bytes; say that it has 128 to read twice as many"
            : "the chip is taken to stand at the start; say where it begins if that is elsewhere");
  return found;
}

/// How many blocks of a size there are, if most of them are chips' by themselves.
std::size_t chips(const Bytes& bytes, std::size_t size, const ReadingOptions& options) {
  if (!options.likeness || bytes.size() % size != 0) return 0;
  // The first ones tell; a file may hold thousands.
  constexpr std::size_t looked_at = 16;
  const std::size_t count = bytes.size() / size;
  std::size_t sure = 0;
  for (std::size_t i = 0; i < std::min(count, looked_at); ++i)
    if (looks(image_of(bytes, i * size, size), options, surely_a_chip)) ++sure;
  return sure > 1 && sure * 2 >= std::min(count, looked_at) ? count : 0;
}

void refuse_many_chips(const Bytes& bytes, const std::string& where,
                       const ReadingOptions& options) {
  for (const std::size_t size : {Image::large_size, Image::small_size})
    if (const std::size_t count = chips(bytes, size, options); count > 1)
      refuse(where,
             fmt::format("it holds {} bytes: {} chips of {} bytes", bytes.size(), count, size),
             Advice{{"All of them are judged as one packed file",
                     Act{Act::Kind::audit_packed, {}, fmt::format("{}", size)}},
                    {"One is read by where it begins and how many bytes it has",
                     Act{Act::Kind::choose, "at", "OFFSET"}},
                    {"", Act{Act::Kind::choose, "size", fmt::format("{}", size)}}});
}

std::optional<Found> banked(const Bytes& bytes, const ReadingOptions& options) {
  if (bytes.size() != 2 * bank || !options.likeness) return std::nullopt;
  const Image first = image_of(bytes, 0, bank);
  if (!looks(first, options, like_a_chip)) return std::nullopt;
  return Found{
      first,
      {{},
       {"it holds 256 bytes, two banks of 128: the first, 00h-7Fh with the clock, is read; "
        "the second, 80h-FFh, is left out: say that the bytes begin at 128 to read it"}}};
}

}  // namespace

void warn_of_halves(Found& found) {
  const std::span<const std::uint8_t> bytes = found.image.bytes();
  if (bytes.size() != Image::large_size) return;
  // A clock that ran on between two readings changes some bytes of the second.
  constexpr std::size_t most_apart = 8;
  constexpr std::size_t fewest_telling = 8;
  std::size_t apart = 0;
  std::size_t telling = 0;
  for (std::size_t i = 0; i < Image::small_size; ++i) {
    const bool alike = bytes[i] == bytes[i + Image::small_size];
    if (!alike) ++apart;
    if (alike && bytes[i] != 0x00 && bytes[i] != 0xFF) ++telling;
  }
  if (apart > most_apart || telling < fewest_telling) return;
  found.remarks.warnings.emplace_back(
      "its two halves are alike: 64 bytes that were read or pasted twice? Say that the chip "
      "has 64 to take the first");
}

Found chip_in(const Bytes& bytes, const std::string& where, const ReadingOptions& options) {
  if (options.at || options.size) return at_the_place_given(bytes, where, options);
  if (is_dump_size(bytes.size())) return {image_by_count(bytes, where)};
  std::optional<Found> found = short_by_a_few(bytes);
  if (!found) found = with_terminator(bytes);
  if (!found && bytes.size() > Image::large_size) {
    found = repeated(bytes);
    if (!found) found = with_fill(bytes, options);
    if (!found) refuse_many_chips(bytes, where, options);
    if (!found) found = banked(bytes, options);
  }
  if (!found) refuse_size(bytes, where);
  found->adapted = true;
  return *found;
}

}  // namespace rtcmend
