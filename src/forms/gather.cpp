#include "forms/gather.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "forms/source_lines.h"

namespace rtcmend {

void Gather::put(std::uint64_t address, DumpByte value, std::size_t line) {
  if (address >= bytes_.size())
    refuse(place(where_, line),
           fmt::format("address {:02X}h is past the chip, whose last byte is 7Fh", address),
           "give the chip's bytes alone, from address 00h on");
  Source& source = bytes_[address];
  const bool disagrees = source.line != 0 && source.value && value && *source.value != *value;
  if (disagrees)
    refuse(place(where_, line),
           fmt::format("byte {:02X}h is {} here, but line {} says {}", address, hex_prose(*value),
                       source.line, hex_prose(*source.value)),
           "keep the line that is right, or read the chip again");
  if (source.line == 0 || value) source = {value, line};
}

Image Gather::image() const {
  std::size_t highest = bytes_.size();
  for (std::size_t at = 0; at < bytes_.size(); ++at)
    if (bytes_[at].line != 0) highest = at;
  if (highest == bytes_.size()) refuse(where_, "it holds no bytes of the chip");
  Image image(chip_size_for(highest));
  for (std::size_t at = 0; at < image.size(); ++at)
    if (bytes_[at].value) image.set(static_cast<Address>(at), *bytes_[at].value);
  return image;
}

}  // namespace rtcmend
