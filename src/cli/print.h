#pragma once

#include <string>
#include <string_view>

#include "cli/options.h"
#include "render/json.h"
#include "terminal/ink.h"

namespace rtcmend {

/// How a command talks.
struct Voice {
  bool json = false;
  std::string color = "auto";

  /// Colour for standard output: as asked for, else only on a terminal and without NO_COLOR.
  Ink ink() const;
};

/// --json and --color.
void add_voice(Options& options, Voice& voice);

/// To standard output, whole or not at all as far as the caller can tell: see finish_printing.
void print(std::string_view text);
/// One line of JSON.
void print_json(const Json& json);
/// To standard error: messages, and reports when the image itself goes to standard output.
void print_aside(std::string_view text);
/// Throws Error (file_system) when standard output could not take everything.
void finish_printing();

}  // namespace rtcmend
