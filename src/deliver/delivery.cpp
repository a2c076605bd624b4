#include "deliver/delivery.h"

#include <algorithm>

#include "base/error.h"
#include "check/crc.h"
#include "deliver/carriers.h"
#include "deliver/guidance.h"

namespace rtcmend {

namespace {

Delivery carry(const Parcel& parcel, const WritePlan& plan, Way way) {
  switch (way) {
    case Way::boot_floppy:
      return boot_floppy(parcel, plan);
    case Way::dos_program:
      return dos_program(parcel, plan);
    case Way::debugger_script:
      return debugger_script(parcel, plan);
    case Way::basic_listing:
      return basic_listing(parcel, plan);
    case Way::keyboard_program:
      break;
  }
  return keyboard_program(parcel, plan);
}

Delivery fetch(const CaptureOrder& order, Way way) {
  switch (way) {
    case Way::boot_floppy:
      return floppy_capture(order);
    case Way::dos_program:
      return dos_capture(order);
    case Way::debugger_script:
      return debugger_capture(order);
    case Way::basic_listing:
      return basic_capture(order);
    case Way::keyboard_program:
      break;
  }
  return keyboard_capture(order);
}

[[noreturn]] void refuse_for_program(std::string choice, std::string what) {
  refuse_choice(std::move(choice), "only a boot floppy or a DOS program can " + what,
                Advice{{"Take one of these", Act{Act::Kind::choose, "as", "boot-floppy"}},
                       {"Or", Act{Act::Kind::choose, "as", "dos-program"}}});
}

}  // namespace

void refuse_without_program(const Parcel& parcel) {
  if (parcel.occasion == Occasion::when_lost) refuse_for_program("when-lost", "look first");
  if (parcel.codes) refuse_for_program("code", "show a code for a phone");
}

std::uint16_t open_code(const Image& image, const Addresses& hidden) {
  std::vector<std::uint8_t> open;
  for (Address at = Image::ram_start; at < image.size(); ++at)
    if (image.known(at) && !std::binary_search(hidden.begin(), hidden.end(), at))
      open.push_back(image[at]);
  return Crc(crc_models::ibm_3740)(open);
}

Delivery deliver(const Parcel& parcel, Way way) {
  const WritePlan plan = plan_writing(parcel);
  Delivery delivery = carry(parcel, plan, way);
  delivery.left_alone = plan.left_alone;
  delivery.code = open_code(parcel.image, parcel.hidden);
  delivery.steps = delivery_steps(parcel, way, delivery.sign);
  delivery.cautions = delivery_cautions(parcel, way);
  return delivery;
}

Delivery capture(const CaptureOrder& order, Way way) {
  Delivery delivery = fetch(order, way);
  delivery.steps = capture_steps(way);
  delivery.cautions = capture_cautions(way);
  return delivery;
}

}  // namespace rtcmend
