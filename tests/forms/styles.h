#pragma once

#include <functional>
#include <string>
#include <vector>

#include "forms/reading.h"

namespace rtcmend::test {

/// A way to write bytes down, made without any of the program's own writers.
struct Style {
  std::string name;
  std::function<std::string(const std::string& bytes)> write;
  ReadingOptions options{};  ///< what the reader must be told, where the text leaves it open
};

const std::vector<Style>& styles();

}  // namespace rtcmend::test
