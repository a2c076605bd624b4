#pragma once

#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

#include "judge/examine.h"
#include "layout/library.h"
#include "support/sound_images.h"

namespace rtcmend {

inline const Layout& layout_of(const std::string& id) {
  static const Layout at = built_in_layout("at"), crc = built_in_layout("crc+slots-19"),
                      chip = built_in_layout("chip"), large = built_in_layout("at+sum-40-7d");
  if (id == "at") return at;
  if (id == "crc+slots-19") return crc;
  return id == "at+sum-40-7d" ? large : chip;
}

/// "fault check-mismatch at 2Eh-2Fh", worst first.
inline std::vector<std::string> briefly(const std::vector<Finding>& findings) {
  std::vector<std::string> all;
  for (const Finding& finding : findings)
    all.push_back(std::string(name(finding.severity())) + " " + std::string(finding.id()) +
                  (finding.at.empty() ? "" : " at " + to_prose(finding.at)));
  return all;
}

inline std::vector<std::string> found(const Image& image, const std::string& layout = "at") {
  return briefly(examine(image, layout_of(layout)).findings);
}

/// Of the sound AT-class machine with some bytes replaced.
inline std::vector<std::string> findings_with(
    std::initializer_list<std::pair<Address, std::uint8_t>> bytes) {
  return found(with_bytes(at_64_image(), bytes));
}

/// The text of the first finding with this id; empty when there is none.
inline std::string text_of(const std::string& id, const Image& image,
                           const std::string& layout = "at") {
  for (const Finding& finding : examine(image, layout_of(layout)).findings)
    if (finding.id() == id) return finding.text;
  return {};
}

}  // namespace rtcmend
