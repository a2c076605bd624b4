#pragma once

#include <string>

/// What a program needs that is more than a filter: where it lies, and a file shown to a person.
/// One file for each system, as behind base/system.h.
namespace rtcmend::desktop {

/// The folder of the running program, with a slash behind it; empty when the system does not say.
std::string program_folder();

/// Asks the person's own browser to show a file, and waits for nobody. False when no browser could
/// be started. Elsewhere than on Windows BROWSER names it, xdg-open finds it otherwise.
bool show_in_browser(const std::string& path);

}  // namespace rtcmend::desktop
