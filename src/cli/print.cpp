#include "cli/print.h"

#include <cstdio>
#include <cstdlib>

#include "base/error.h"
#include "base/system.h"

namespace rtcmend {

namespace {

bool set_in_environment(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr && *value != '\0';
}

/// One that shows the codes of colours as they are.
bool dumb_terminal() {
  const char* kind = std::getenv("TERM");
  return kind != nullptr && std::string_view(kind) == "dumb";
}

}  // namespace

Ink Voice::ink() const {
  if (color != "auto") return Ink(color == "always");
  return Ink(system::output_is_terminal() && !set_in_environment("NO_COLOR") && !dumb_terminal());
}

void add_voice(Options& options, Voice& voice) {
  options.flag(voice.json, "--json", "one line of JSON, for other programs");
  options.choice(voice.color, "--color", {"auto", "always", "never"},
                 "auto is colour on a terminal, unless NO_COLOR is set or TERM is dumb");
}

void print(std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stdout);
}

void print_json(const Json& json) {
  print(to_line(json) + "\n");
}

void print_aside(std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stderr);
}

void finish_printing() {
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0)
    throw Error(Refusal::file_system, "standard output", "it could not take everything",
                "make room, or send it elsewhere");
}

}  // namespace rtcmend
