#include "judge/finding_kind.h"

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

std::optional<FindingKind> finding_kind_named(std::string_view id) {
  for (const KindOfFinding& row : finding_kinds)
    if (row.id == id) return row.kind;
  return std::nullopt;
}

}  // namespace rtcmend
