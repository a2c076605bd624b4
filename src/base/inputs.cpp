#include "base/inputs.h"

#include <algorithm>
#include <unistd.h>

namespace rtcmend {

void Inputs::add(const std::string& path) {
  if (path.empty() || path == "-") return;
  paths_.push_back(path);
  if (const auto id = system::identity(path)) ids_.push_back(*id);
}

void Inputs::add(const std::vector<std::string>& paths) {
  for (const std::string& path : paths) add(path);
}

bool Inputs::hold(const std::string& path) const {
  const auto output = system::identity(path);
  if (!output) return false;
  if (output == system::identity_of(STDIN_FILENO)) return true;
  if (std::find(ids_.begin(), ids_.end(), *output) != ids_.end()) return true;
  // A name that has come to lead to another file since is still the input's name.
  return std::any_of(paths_.begin(), paths_.end(),
                     [&](const std::string& name) { return system::identity(name) == output; });
}

}  // namespace rtcmend
