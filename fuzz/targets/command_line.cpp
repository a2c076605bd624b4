// Whole command lines on a file of any content. The first byte picks the command.
#include <array>
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <string>
#include <unistd.h>
#include <vector>

#include "cli/run.h"
#include "nameless_file.h"
#include "target.h"

namespace rtcmend::fuzz {

namespace {

/// FILE is the content, IMAGE 64 bytes of 5A, FOLDER one that holds the content as a dump and as
/// ARCHIVE. Nothing is written but to standard output. New lines go to the end: seeds count them.
const std::vector<std::vector<const char*>> lines = {
    {"show", "FILE"},
    {"show", "FILE", "--map", "--registers", "--json"},
    {"verify", "FILE"},
    {"verify", "FILE", "--layout", "at", "--json"},
    {"identify", "FILE"},
    {"forecast", "FILE", "--layout", "crc+slots-19"},
    {"compare", "FILE", "FILE"},
    {"convert", "FILE", "--to", "hex", "-o", "-"},
    {"seal", "FILE", "--layout", "at", "-o", "-", "--to", "rows"},
    {"amend", "FILE", "--set", "floppy_a=1.44M", "-o", "-", "--to", "json", "--unsound-anyway"},
    {"compose", "FILE", "-o", "-", "--to", "c-array"},
    {"explain", "161", "163", "--dump", "FILE"},
    {"solve", "FILE", "FILE", "--at", "2E", "--over", "10-2D"},
    {"trace", "FILE"},
    {"layouts", "check", "FILE"},
    {"show", "IMAGE", "--layout", "FILE"},
    {"drift", "FILE", "--at", "2031-05-14T09:30:00", "FILE", "--at", "2031-06-14T09:30:00"},
    {"drift", "--log", "FILE"},
    {"audit", "FILE", "--jobs", "1"},
    {"audit", "ARCHIVE", "--jobs", "1"},
    {"audit", "FOLDER", "--packed", "64", "--jobs", "1", "--json"},
    {"history", "FOLDER"},
    {"sheet", "FILE", "-o", "-"},
    {"sheet", "IMAGE", "--layout", "FILE", "-o", "-"},
    {"deliver", "FILE", "--as", "basic-listing", "-o", "-", "--unsound-anyway"},
    {"layouts", "print", "FILE"},
    {"trace", "--idle", "IMAGE", "--idle", "IMAGE", "--into", "FILE", "-o", "-"},
    {"drives", "--capacity", "40M", "--layout", "FILE"},
    {"show", "IMAGE", "--layout", "FILE", "--map"},
    {"verify", "IMAGE", "--layout", "FILE"},
    {"explain", "161", "--dump", "IMAGE", "--layout", "FILE"},
};

/// A folder with names for the content.
class Folder {
 public:
  explicit Folder(const std::string& content) {
    must(::mkdtemp(path_.data()) != nullptr && ::symlink(content.c_str(), dump().c_str()) == 0 &&
             ::symlink(content.c_str(), archive().c_str()) == 0,
         "the machine has a folder for passing files");
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    ::unlink(dump().c_str());
    ::unlink(archive().c_str());
    ::rmdir(path_.c_str());
  }
  const std::string& path() const { return path_; }
  std::string dump() const { return path_ + "/2031-05-14.bin"; }
  std::string archive() const { return path_ + "/dumps.tar"; }

 private:
  std::string path_ = "/tmp/rtcmend-fuzz-XXXXXX";
};

/// Catches standard output and error while it lives.
class Caught {
 public:
  explicit Caught(const NamelessFile& file) {
    for (const int number : {STDOUT_FILENO, STDERR_FILENO}) {
      kept_[static_cast<std::size_t>(number)] = ::dup(number);
      ::dup2(file.number(), number);
    }
  }
  Caught(const Caught&) = delete;
  Caught& operator=(const Caught&) = delete;
  ~Caught() {
    std::cout.flush();
    std::fflush(stdout);
    for (const int number : {STDOUT_FILENO, STDERR_FILENO}) {
      ::dup2(kept_[static_cast<std::size_t>(number)], number);
      ::close(kept_[static_cast<std::size_t>(number)]);
    }
  }

 private:
  std::array<int, 3> kept_{};
};

/// Control characters and the marks that turn the direction of writing, as UTF-8 has them (Unicode
/// 15, general categories Cc and the Bidi_Control property).
bool steers_a_terminal(std::string_view text) {
  constexpr std::array<std::string_view, 5> marks = {"\u061C", "\u200E", "\u200F", "\u202E",
                                                     "\u2067"};
  for (std::size_t at = 0; at < text.size(); ++at) {
    const auto byte = static_cast<unsigned char>(text[at]);
    // DOS ends the lines of a listing with both.
    const bool line_end = byte == '\n' || text.substr(at, 2) == "\r\n";
    if ((byte < 0x20 && !line_end) || byte == 0x7F) return true;
    if (byte == 0xC2 && at + 1 < text.size() && static_cast<unsigned char>(text[at + 1]) < 0xA0)
      return true;
  }
  for (const std::string_view mark : marks)
    if (text.find(mark) != std::string_view::npos) return true;
  return false;
}

}  // namespace

void attempt(std::string_view input) {
  if (input.empty()) return;
  static NamelessFile content, image, said;
  static const Folder folder(content.path());
  content.fill(input.substr(1));
  image.fill(std::string(64, '\x5A'));
  said.fill("");
  std::vector<std::string> words = {"rtcmend"};
  for (const std::string_view word :
       lines[static_cast<unsigned char>(input.front()) % lines.size()]) {
    if (word == "FILE")
      words.push_back(content.path());
    else if (word == "IMAGE")
      words.push_back(image.path());
    else if (word == "FOLDER")
      words.push_back(folder.path());
    else if (word == "ARCHIVE")
      words.push_back(folder.archive());
    else
      words.emplace_back(word);
  }
  std::vector<const char*> arguments;
  for (const std::string& word : words) arguments.push_back(word.c_str());
  int code = -1;
  {
    const Caught caught(said);
    code = run(static_cast<int>(arguments.size()), arguments.data());
  }
  must(code >= 0 && code <= 3, "a run ends with an exit code of its own");
  const std::string text = said.content();
  // At the start of a line: a message may quote the same words from a file.
  must(("\n" + text).find("\nrtcmend: rtcmend itself:") == std::string::npos,
       "nothing but Error ends a run early");
  must(!steers_a_terminal(text), "nothing from outside steers a terminal");
}

}  // namespace rtcmend::fuzz
