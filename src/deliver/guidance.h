#pragma once

#include "deliver/delivery.h"

namespace rtcmend {

/// What a person does to write a chip this way, in order.
std::vector<std::string> delivery_steps(const Parcel& parcel, Way way);
/// What to beware of, and what to do when it does not work.
std::vector<std::string> delivery_cautions(const Parcel& parcel, Way way);

std::vector<std::string> capture_steps(Way way);
std::vector<std::string> capture_cautions(Way way);

}  // namespace rtcmend
