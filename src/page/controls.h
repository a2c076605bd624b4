#pragma once

#include "layout/codec.h"
#include "render/json.h"

namespace rtcmend {

/// A field with the control that fits it, for the page: everything that show_json says of it, and
/// `bits` ("10h bits 7-4"), `inUse`, `legal`, `problem`, `note`, `source`, `entry` (the value as it
/// may be typed), and `control` {`kind`, `choices`, `least`, `most`, `step`, `unit`, `legal`}. The
/// kind is "choice", "switch", "number", "bytes", "text", or "none" for what is only shown.
Json field_with_control(const FieldReading& reading);

}  // namespace rtcmend
