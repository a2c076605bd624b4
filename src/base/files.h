#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/inputs.h"

namespace rtcmend {

/// No dump, layout or description comes near this; a larger file is refused before it is read.
constexpr std::size_t largest_input = 1024 * 1024;

/// The whole file; "-" is standard input. Throws Error: input for a missing file, a directory, an
/// empty file or one over `limit` bytes; file_system when reading fails half-way.
std::string read_whole(const std::string& path, std::size_t limit = largest_input);

/// Whether there is anything of that name.
bool exists_already(const std::string& path);

/// Whether it is a plain file, or a link to one: reading it neither waits nor does anything.
bool is_plain_file(const std::string& path);

/// A regular file that a walk has found, usually a tiny one: no more questions to the system than
/// it takes to read it, and no waiting should a pipe have taken its place. Throws Error like
/// read_whole, input for whatever is wrong.
std::string read_found(const std::string& path, std::size_t limit = largest_input);

/// A file read from its beginning in pieces of a given size, however large it is.
class PieceReader {
 public:
  /// Throws Error (input) when it cannot be opened.
  explicit PieceReader(const std::string& path);
  ~PieceReader();
  PieceReader(const PieceReader&) = delete;
  PieceReader& operator=(const PieceReader&) = delete;

  /// The next `size` bytes, fewer at the end of the file, none behind it. Throws Error
  /// (file_system).
  std::string next(std::size_t size);

 private:
  std::string path_;
  int descriptor_;
};

/// What a write must respect.
struct WriteRules {
  bool replace = false;  ///< an existing file may be replaced
  Inputs inputs;         ///< files that were read: never written over, by any name
};

/// Refuses, before any work is done, an output that is an input, that exists without `replace` (a
/// disk's device too), or that is a link to nothing.
void check_output(const std::string& path, const WriteRules& rules);

/// Whether two outputs, there or not yet, are one file.
bool same_output(const std::string& one, const std::string& other);

/// Writes the whole content or nothing: beside the target, flushed to the disk, then renamed. "-"
/// is standard output; a device or FIFO is written straight, and cannot
/// be taken back. Throws Error: input for what
/// check_output refuses, file_system for everything else, and leaves an old file as it was.
void write_whole(const std::string& path, std::string_view content, const WriteRules& rules);

}  // namespace rtcmend
