#pragma once

#include <span>
#include <string_view>

namespace rtcmend {

/// A file of layouts/ as it was at build time.
struct EmbeddedFile {
  std::string_view name;  ///< "at", "parts/at-core", "schema/layout"
  std::string_view text;
};

/// All of them, in the order of their file names. Defined in a source that the build generates.
std::span<const EmbeddedFile> embedded_files();

}  // namespace rtcmend
