#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/image.h"
#include "end_to_end/workbench.h"
#include "render/json.h"

namespace rtcmend::test {

/// One thing that a person does to a dump.
struct Deed {
  enum class Kind { take_back, repair, byte, field, clock, seal } kind;
  std::string what;  ///< "shift=1"; a suspect's id, or "first"; "2D=40"; "floppy_a=1.44M"; a time
};

/// What is done to one dump, and how it leaves.
struct Story {
  const char* name;
  std::string content;  ///< of the dump's file
  std::string layout;   ///< empty = identified, or named by the dump
  std::vector<Deed> deeds;
  std::string again = {};    ///< content of a second dump of the same chip
  std::string way = "save";  ///< "save", or a way to deliver
  std::string clock = "keep";
  bool anyway = false;
};

/// How a story ended on one face.
struct Ending {
  std::string refused;   ///< what the refusal said; empty = written
  std::string content;   ///< of what was written
  std::string standing;  ///< of the image that was written, as JSON

  friend bool operator==(const Ending&, const Ending&) = default;
};

Ending on_the_command_line(const Story& story);
Ending on_the_page(const Story& story);

}  // namespace rtcmend::test
