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

/// The wall's time for a moment; nothing when the system does not know it.
std::optional<std::tm> local_time(std::time_t moment);

/// Opens without letting other programs inherit; -1 on failure.
int open_to_read(const std::string& path);
/// The same for what might have turned into a pipe: neither this nor a read of it waits.
int open_without_waiting(const std::string& path);
int open_to_write(const std::string& path);
/// Makes the file when it is not there, and holds it against other programs where that is possible.
int open_to_append(const std::string& path);
/// A new file beside others, its last six letters X replaced by what makes it the only one.
int open_new_beside(std::string& path);

/// Gives a new file the mode of the one it is to replace, or the user's usual one. False on
/// failure.
bool set_usual_mode(int descriptor, const std::string& replaced);
/// To the disk; false on failure.
bool flush(int descriptor);
/// Makes a rename last. Where the system has no such thing, it does nothing.
void flush_folder_of(const std::string& path);
/// Back to an earlier size.
bool cut_to(int descriptor, long long size);
/// The last byte of a file, or nothing.
std::optional<char> last_byte(int descriptor, long long size);

/// A new name for a file, replacing what bears it. False on failure.
bool rename_over(const std::string& from, const std::string& to);
/// The same, but false with EEXIST when the name is taken.
bool rename_to_new(const std::string& from, const std::string& to);

}  // namespace rtcmend::system
