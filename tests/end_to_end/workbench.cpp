#include "workbench.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>
#include <unistd.h>

namespace rtcmend::test {

Workbench::Workbench() {
  // The page before its parts are put in: it needs no browser's tools to be built.
  ::setenv("RTCMEND_LAYOUTS", path("own-layouts").c_str(), 1);
  ::setenv("RTCMEND_PAGE", RTCMEND_SOURCE_DIR "/src/page/ui/index.html", 1);
}

Ran Workbench::run(std::vector<std::string> arguments, std::string input) const {
  Start start;
  start.arguments = std::move(arguments);
  start.input = std::move(input);
  return run(std::move(start));
}

Ran Workbench::run(Start start) const {
  start.program = RTCMEND_PROGRAM;
  start.folder = folder_.path().string();
  return run_program(start);
}

Ran Workbench::shell(const std::string& line) const {
  Start start;
  start.program = "/bin/sh";
  start.arguments = {"-c", line, RTCMEND_PROGRAM};
  start.folder = folder_.path().string();
  return run_program(start);
}

std::optional<std::string> Workbench::rtcmend_as_nobody() const {
  const std::string line =
      ::geteuid() == 0 ? "setpriv --reuid 65534 --regid 65534 --clear-groups \"$0\" " : "\"$0\" ";
  if (shell(line + "--version").code != 0) return std::nullopt;
  return line;
}

void Workbench::put(const std::string& name, std::string_view content) const {
  std::ofstream file(path(name), std::ios::binary);
  file << content;
  if (!file.flush()) throw std::runtime_error("cannot write " + path(name));
}

void Workbench::put(const std::string& name, const std::vector<std::uint8_t>& bytes) const {
  put(name, std::string(bytes.begin(), bytes.end()));
}

std::string Workbench::get(const std::string& name) const {
  std::ifstream file(path(name), std::ios::binary);
  if (!file) throw std::runtime_error("there is no " + path(name));
  std::ostringstream content;
  content << file.rdbuf();
  return content.str();
}

std::vector<std::uint8_t> Workbench::bytes(const std::string& name) const {
  const std::string content = get(name);
  return {content.begin(), content.end()};
}

bool Workbench::has(const std::string& name) const {
  return std::filesystem::exists(path(name));
}

std::size_t Workbench::files() const {
  const std::filesystem::directory_iterator all(folder_.path());
  return static_cast<std::size_t>(std::distance(begin(all), end(all)));
}

bool complains(const Ran& ran, std::string_view where, std::string_view words) {
  return ran.err.starts_with("rtcmend: " + std::string(where)) &&
         ran.err.find(words) != std::string::npos;
}

}  // namespace rtcmend::test
