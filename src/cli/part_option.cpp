#include "cli/part_option.h"

#include <utility>

#include "base/error.h"
#include "judge/part_findings.h"
#include "layout/parts_catalogue.h"

namespace rtcmend {

const Part& part_given(const std::string& name) {
  try {
    return need_part(name);
  } catch (const Error& error) {
    refuse("--part", error.message(), error.advice());
  }
}

void add_part(Options& options, std::string& part) {
  options.value(part, "--part", "PART",
                "the clock chip's number, DS12887A for instance: what it changes is told as well; "
                "\"rtcmend chips\" lists them");
}

void check_part(const std::string& part) {
  if (!part.empty()) part_given(part);
}

Examination with_part(Examination examination, const std::string& part, const Image& image,
                      const Layout& layout) {
  if (part.empty()) return examination;
  return with_findings(std::move(examination), part_findings(image, layout, part_given(part)));
}

}  // namespace rtcmend
