#include "render/chip_codes.h"

#include <fmt/format.h>

#include "base/text.h"
#include "forms/code_text.h"
#include "layout/privacy.h"
#include "render/words.h"

namespace rtcmend {

std::vector<ChipCode> chip_codes(const Card& card) {
  const std::vector<std::string> texts = code_texts(without_private(card.dump.image, card.layout));
  std::vector<ChipCode> codes;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const std::size_t first = i * bytes_a_code;
    codes.push_back({fmt::format("Code {} of {}, bytes {} to {}", i + 1, texts.size(),
                                 hex_prose(static_cast<std::uint8_t>(first)),
                                 hex_prose(static_cast<std::uint8_t>(first + bytes_a_code - 1))),
                     qr_code(texts[i])});
  }
  return codes;
}

std::vector<std::string> copying_warnings(const Card& card) {
  std::vector<std::string> warnings;
  const Examination& examination = card.examination;
  if (!examination.sound)
    warnings.push_back("This image is not sound, and copying it does not mend it: " +
                       verdict(examination.standing, examination.findings));
  if (!without_private(card.dump.image, card.layout).all_known())
    warnings.push_back(
        "A byte that the dump does not hold or that belongs to a password is said to be unknown.");
  return warnings;
}

std::string about_rows(const Card& card) {
  std::string about =
      "Address, sixteen bytes, and a code over both. Type them as they stand: rtcmend reads them "
      "back and names the row that has a slip.";
  if (!without_private(card.dump.image, card.layout).all_known())
    about += " Leave ?? as it is in the chip.";
  return about;
}

std::string about_codes(const Card& card) {
  const bool one = card.dump.image.size() == bytes_a_code;
  return fmt::format(
      "What the chip holds, for the camera of a phone: {}, with checks that find a slip. Copy "
      "or send what the phone reads, with whatever stands around it; rtcmend reads it as a dump{}.",
      one ? "one code" : "two codes", one ? "" : ", both texts in any order");
}

}  // namespace rtcmend
