#include "deliver/keyboard_slips.h"

#include "check/crc.h"

namespace rtcmend {

namespace {

constexpr char first_letter_that_counts = '9';

std::uint16_t crc_from(std::uint16_t start, const std::vector<std::uint8_t>& bytes) {
  CrcModel model = crc_models::ibm_3740;
  model.init = start;
  return crc_bitwise(model, bytes);
}

std::string left_out(std::string_view text, std::size_t at) {
  return std::string(text.substr(0, at)) + std::string(text.substr(at + 1));
}

std::string doubled(std::string_view text, std::size_t at) {
  return std::string(text.substr(0, at + 1)) + std::string(text.substr(at));
}

std::string swapped(std::string_view text, std::size_t at) {
  std::string slip(text);
  if (at + 1 < slip.size()) std::swap(slip[at], slip[at + 1]);
  return slip;
}

std::string skipped(std::string_view text, std::size_t at) {
  std::string slip(text);
  slip[at] = '!';
  return slip;
}

}  // namespace

std::vector<std::uint8_t> decode_letters(std::string_view letters) {
  std::vector<std::uint8_t> bytes;
  for (std::size_t at = 0; at + 1 < letters.size(); at += 2) {
    if (letters[at] < first_letter_that_counts) continue;
    const auto byte = static_cast<std::uint8_t>(letters[at] + 10 * letters[at + 1]);
    if (byte == 0) break;
    bytes.push_back(byte);
  }
  return bytes;
}

bool slips_are_found(std::uint16_t before, std::string_view letters, std::uint16_t wanted) {
  const std::vector<std::uint8_t> right = decode_letters(letters);
  const auto passes = [&](const std::string& slip) {
    const auto bytes = decode_letters(slip);
    return bytes != right && crc_from(before, bytes) == wanted;
  };
  for (std::size_t at = 0; at < letters.size(); ++at)
    if (passes(left_out(letters, at)) || passes(doubled(letters, at)) ||
        passes(swapped(letters, at)) || passes(skipped(letters, at)))
      return false;
  for (std::size_t end = 0; end < right.size(); ++end)
    if (crc_from(before, {right.begin(), right.begin() + static_cast<std::ptrdiff_t>(end)}) ==
        wanted)
      return false;
  return true;
}

}  // namespace rtcmend
