#pragma once

#include <string>

namespace rtcmend {

/// Every kind of finding in Markdown, a table a family: its id, its severity, what it does to the
/// standing, what it means. docs/findings.md is this.
std::string finding_list();

}  // namespace rtcmend
