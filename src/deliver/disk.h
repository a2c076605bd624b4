#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "deliver/delivery.h"

namespace rtcmend {

/// A file in the root folder of a disk.
struct DiskFile {
  std::string_view name;  ///< eleven characters, as the folder stores it: "README  TXT"
  std::string content;
};

/// A floppy-disk image with a FAT-12 file system, as DOS makes it, whose boot sector loads and
/// starts the first file. The same files give the same image: no dates, no random numbers.
std::string make_boot_disk(DiskFormat format, std::span<const DiskFile> files);

}  // namespace rtcmend
