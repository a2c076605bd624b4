#include "images/misreads.h"

#include <fmt/format.h>

#include "images/injected_faults.h"
#include "judge/rearrange.h"

namespace rtcmend {

std::vector<Misread> every_misread(const Image& image) {
  std::vector<Misread> all;
  for (const bool high : {false, true}) {
    for (unsigned bit = 0; bit < 8; ++bit)
      all.push_back({fmt::format("data line {} at {}", bit, high ? 1 : 0),
                     with_data_bit_stuck(image, bit, high).image});
    for (unsigned line = 0; line < 6; ++line)
      all.push_back({fmt::format("address line {} at {}", line, high ? 1 : 0),
                     with_address_line_stuck(image, line, high).image});
  }
  for (const int value : {0x00, 0xFF, 0x5A})
    all.push_back(
        {fmt::format("nothing but {:02X}", value),
         Image(std::vector<std::uint8_t>(image.size(), static_cast<std::uint8_t>(value)))});
  for (const int places : {1, -1, 5})
    all.push_back({fmt::format("shifted by {}", places), rotated(image, places)});
  all.push_back({"nibbles swapped", with_nibbles_swapped(image)});
  all.push_back({"bits reversed", with_bits_reversed(image)});
  std::erase_if(all, [&](const Misread& misread) { return misread.image == image; });
  return all;
}

}  // namespace rtcmend
