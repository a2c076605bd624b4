#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// A content as the marks of the forms are looked for in it.
struct Sketch {
  std::string_view content;               ///< whole, as clean text when it is text at all
  std::vector<std::string_view> lines{};  ///< the first ones that hold anything, trimmed
};

Sketch sketch_of(std::string_view content);

/// The marks of each form of text.
bool shows_json(const Sketch& sketch);
bool shows_code_text(const Sketch& sketch);
bool shows_intel_hex(const Sketch& sketch);
bool shows_s_record(const Sketch& sketch);
bool shows_rows(const Sketch& sketch);
bool shows_hex(const Sketch& sketch);
bool shows_c_array(const Sketch& sketch);

}  // namespace rtcmend
