#pragma once

#include "deliver/delivery.h"

namespace rtcmend {

/// What a person does to write a chip this way, in order. sign: Delivery::sign.
std::vector<Advice> delivery_steps(const Parcel& parcel, Way way,
                                   std::optional<std::uint16_t> sign);
/// What to beware of, and what to do when it does not work.
std::vector<Advice> delivery_cautions(const Parcel& parcel, Way way);

std::vector<Advice> capture_steps(Way way);
std::vector<Advice> capture_cautions(Way way);

}  // namespace rtcmend
