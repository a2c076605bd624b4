#pragma once

#include <ctime>
#include <optional>
#include <string>

/// What the systems do differently: one file for each of them behind this header. Descriptors are
/// those of POSIX, which Windows' C library has too; a failure leaves its reason in errno.
namespace rtcmend::system {

/// Before anything else: bytes pass the standard streams as they are, and a file-size limit comes
/// back as an error of a write, not as the end of the program.
void prepare_process();

/// Whether a person reads what is written there.
bool output_is_terminal();
bool errors_are_terminal();

/// Local time for a timestamp; nothing when the system does not know it.
std::optional<std::tm> local_time(std::time_t moment);

/// What tells a file from every other, whatever its names.
struct FileId {
  unsigned long long device = 0, number = 0;
  friend bool operator==(const FileId&, const FileId&) = default;
};

/// Of the file that a path leads to, links followed; nothing when it leads nowhere.
std::optional<FileId> identity(const std::string& path);
/// Of what is open.
std::optional<FileId> identity_of(int descriptor);

/// Opens without letting other programs inherit; -1 on failure.
int open_to_read(const std::string& path);
/// The same for what might have turned into a pipe: neither this nor a read of it waits.
int open_without_waiting(const std::string& path);
int open_to_write(const std::string& path);
/// The file must be there; it is held against other programs where that is possible.
int open_to_append(const std::string& path);

/// To the disk; false on failure.
bool flush(int descriptor);
/// Back to an earlier size.
bool cut_to(int descriptor, long long size);
/// The last byte of a file, or nothing.
std::optional<char> last_byte(int descriptor, long long size);

}  // namespace rtcmend::system
