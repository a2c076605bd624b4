#include <filesystem>
// clang-format off
#include <windows.h>
#include <shellapi.h>  // does not stand by itself
// clang-format on

#include "base/desktop.h"

namespace rtcmend::desktop {

std::string program_folder() {
  char path[MAX_PATH];
  const DWORD length = ::GetModuleFileNameA(nullptr, path, MAX_PATH);
  if (length == 0 || length == MAX_PATH) return {};
  return std::filesystem::path(path).parent_path().string() + "/";
}

bool show_in_browser(const std::string& path) {
  const std::string address = std::filesystem::absolute(path).string();
  constexpr INT_PTR success_above = 32;  // so says the system's own description
  return reinterpret_cast<INT_PTR>(::ShellExecuteA(nullptr, "open", address.c_str(), nullptr,
                                                   nullptr, SW_SHOWNORMAL)) > success_above;
}

}  // namespace rtcmend::desktop
