#pragma once

#include <string>
#include <string_view>

namespace rtcmend::fuzz {

/// A file in memory for what reads files by their path; it is gone with the process.
class NamelessFile {
 public:
  NamelessFile();
  NamelessFile(const NamelessFile&) = delete;
  NamelessFile& operator=(const NamelessFile&) = delete;
  ~NamelessFile();

  int number() const { return number_; }
  /// Good for this process only.
  const std::string& path() const { return path_; }
  std::string content() const;
  /// Replaces what it holds.
  void fill(std::string_view content);

 private:
  int number_;
  std::string path_;
};

}  // namespace rtcmend::fuzz
