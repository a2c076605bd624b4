#include "nameless_file.h"

#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "target.h"

namespace rtcmend::fuzz {

NamelessFile::NamelessFile()
    : number_(::memfd_create("fuzz", 0)), path_("/proc/self/fd/" + std::to_string(number_)) {
  must(number_ >= 0, "the machine has memory");
}

NamelessFile::~NamelessFile() {
  ::close(number_);
}

std::string NamelessFile::content() const {
  struct stat found {};
  must(::fstat(number_, &found) == 0, "a file in memory can be looked at");
  std::string text(static_cast<std::size_t>(found.st_size), '\0');
  must(::pread(number_, text.data(), text.size(), 0) == found.st_size, "a file in memory is read");
  return text;
}

void NamelessFile::fill(std::string_view content) {
  must(::ftruncate(number_, 0) == 0 && ::lseek(number_, 0, SEEK_SET) == 0 &&
           ::pwrite(number_, content.data(), content.size(), 0) ==
               static_cast<ssize_t>(content.size()),
       "the machine has memory");
}

}  // namespace rtcmend::fuzz
