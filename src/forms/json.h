#pragma once

#include <string>
#include <string_view>

#include "base/image.h"
#include "forms/form.h"

namespace rtcmend {

/// The project's own JSON. All keys but `layout`, `note` and `misread` are needed, no others are
/// allowed:
///
///     {
///       "rtcmend": 1,                the version of this form
///       "size": 64,                  or 128
///       "layout": "at",           the layout's id
///       "note": "free text",
///       "misread": ["Data bit 5 is 0 in every byte."],   what was wrong with the reading
///       "bytes": [
///         "21 ?? 58 ... 00",         16 bytes a row from 00h on; ?? is an unknown byte
///         ...
///       ]
///     }
///
/// Refuses, with the JSON path: an unknown key, a wrong type, a wrong number of rows or bytes.
Dump read_json(std::string_view content, const std::string& where);

/// Leaves out what is empty.
std::string write_json(const Image& image, const WriteOptions& options);

}  // namespace rtcmend
