#include "judge/finding.h"

namespace rtcmend {

std::string_view name(Severity severity) {
  switch (severity) {
    case Severity::fault:
      return "fault";
    case Severity::doubt:
      return "doubt";
    case Severity::note:
      break;
  }
  return "note";
}

}  // namespace rtcmend
