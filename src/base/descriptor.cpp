#include "base/descriptor.h"

#include <cerrno>
#include <cstring>
#include <fmt/format.h>

#include "base/error.h"

namespace rtcmend {

bool write_all(int descriptor, std::string_view content) {
  while (!content.empty()) {
    // Windows counts in unsigned; nothing that rtcmend writes comes near its limit.
    const auto written = ::write(descriptor, content.data(), static_cast<unsigned>(content.size()));
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    content.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

void file_system_error(const std::string& path, const std::string& doing) {
  const bool no_folder = errno == ENOENT || errno == ENOTDIR;
  throw Error(Refusal::file_system, path, fmt::format("{}: {}", doing, std::strerror(errno)),
              no_folder
                  ? "nothing was changed; check the folder's name, or make the folder first"
                  : "nothing was changed; make room or choose another place, then run it again");
}

}  // namespace rtcmend
