// Whole command lines on a file of any content. The first byte picks the command.
#include <array>
#include <cstdio>
#include <fcntl.h>
#include <string>
#include <sys/mman.h>
#include <unistd.h>
#include <vector>

#include "cli/run.h"
#include "target.h"

namespace rtcmend::fuzz {

namespace {

/// FILE is the content, IMAGE 64 bytes of 5A; nothing is written but to standard output, which goes
/// nowhere.
const std::vector<std::vector<const char*>> lines = {
    {"show", "FILE"},
    {"show", "FILE", "--map", "--registers", "--json"},
    {"verify", "FILE"},
    {"verify", "FILE", "--layout", "at-64", "--json"},
    {"identify", "FILE"},
    {"forecast", "FILE", "--layout", "crc-64"},
    {"compare", "FILE", "FILE"},
    {"convert", "FILE", "--to", "hex", "-o", "-"},
    {"seal", "FILE", "--layout", "at-128", "-o", "-", "--to", "rows"},
    {"amend", "FILE", "--set", "floppy_a=1.44M", "-o", "-", "--to", "json", "--unsound-anyway"},
    {"compose", "FILE", "-o", "-", "--to", "c-array"},
    {"explain", "161", "163", "--dump", "FILE"},
    {"solve", "FILE", "FILE", "--at", "2E", "--over", "10-2D"},
    {"trace", "FILE"},
    {"layouts", "check", "FILE"},
    {"show", "IMAGE", "--layout", "FILE"},
    {"drift", "FILE", "--at", "2031-05-14T09:30:00", "FILE", "--at", "2031-06-14T09:30:00"},
};

/// A file without a name that holds the content, as a path.
class Content {
 public:
  explicit Content(std::string_view content) : number_(::memfd_create("fuzz", 0)) {
    must(number_ >= 0 && ::write(number_, content.data(), content.size()) ==
                             static_cast<ssize_t>(content.size()),
         "the machine has memory");
    path_ = "/proc/self/fd/" + std::to_string(number_);
  }
  Content(const Content&) = delete;
  Content& operator=(const Content&) = delete;
  ~Content() { ::close(number_); }
  const std::string& path() const { return path_; }

 private:
  int number_;
  std::string path_;
};

/// Standard output and error lead nowhere while this lives.
class Silence {
 public:
  Silence() {
    const int nowhere = ::open("/dev/null", O_WRONLY);
    for (const int number : {STDOUT_FILENO, STDERR_FILENO}) {
      std::fflush(number == STDOUT_FILENO ? stdout : stderr);
      kept_[static_cast<std::size_t>(number)] = ::dup(number);
      ::dup2(nowhere, number);
    }
    ::close(nowhere);
  }
  Silence(const Silence&) = delete;
  Silence& operator=(const Silence&) = delete;
  ~Silence() {
    std::fflush(stdout);
    for (const int number : {STDOUT_FILENO, STDERR_FILENO}) {
      ::dup2(kept_[static_cast<std::size_t>(number)], number);
      ::close(kept_[static_cast<std::size_t>(number)]);
    }
  }

 private:
  std::array<int, 3> kept_{};
};

}  // namespace

void attempt(std::string_view input) {
  if (input.empty()) return;
  const auto& line = lines[static_cast<unsigned char>(input.front()) % lines.size()];
  static const Content image(std::string(64, '\x5A'));
  const Content content(input.substr(1));
  std::vector<std::string> words = {"rtcmend"};
  for (const std::string_view word : line)
    words.emplace_back(word == "FILE" ? content.path() : word == "IMAGE" ? image.path() : word);
  std::vector<const char*> arguments;
  for (const std::string& word : words) arguments.push_back(word.c_str());
  int code = -1;
  {
    const Silence silence;
    code = run(static_cast<int>(arguments.size()), arguments.data());
  }
  must(code >= 0 && code <= 3, "a run ends with an exit code of its own");
}

}  // namespace rtcmend::fuzz
