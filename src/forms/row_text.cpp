#include "forms/row_text.h"

#include "base/text.h"

namespace rtcmend {

std::string row_text(const Image& image, Address first) {
  std::string text;
  for (std::size_t i = 0; i < bytes_a_row; ++i) {
    const auto value = image.at(static_cast<Address>(first + i));
    if (i > 0) text += ' ';
    text += value ? hex2(*value) : "??";
  }
  return text;
}

}  // namespace rtcmend
