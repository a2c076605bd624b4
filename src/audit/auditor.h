#pragma once

#include <cstdint>
#include <memory>
#include <span>

#include "audit/audit.h"
#include "base/image.h"

namespace rtcmend {

/// Judges one image after another, and comes to what judge_plainly() says in a fraction of the
/// time: every question is asked of the functions that verify and identify ask, but only once for
/// the bytes that its answer rests on (recall.h), and checks are evaluated in one pass over the
/// image (check/sweep.h). What cannot be answered so is left to judge_plainly(). Not for two
/// threads at once; each has its own.
class Auditor {
 public:
  /// The rules must outlive it.
  explicit Auditor(const AuditRules& rules);
  ~Auditor();
  Auditor(const Auditor&) = delete;
  Auditor& operator=(const Auditor&) = delete;

  Verdict judge(const Image& image);
  /// 64 or 128 bytes, all known.
  Verdict judge(std::span<const std::uint8_t> bytes) { return judge(Image(bytes)); }

 private:
  class Bench;

  const AuditRules& rules_;
  std::unique_ptr<Bench> small_, large_;  ///< for images of 64 and of 128 bytes
};

}  // namespace rtcmend
