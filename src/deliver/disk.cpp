#include "deliver/disk.h"

#include <stdexcept>

#include "deliver/program.h"

namespace rtcmend {

namespace {

constexpr std::size_t sector_size = 512;
constexpr std::size_t entry_size = 32;  // of the root folder

/// What DOS formats such a disk to (RBIL61, INT 21/AX=440Dh; common practice).
struct Geometry {
  std::uint16_t sectors;
  std::uint8_t cluster;  ///< sectors a cluster
  std::uint16_t root;    ///< entries of the root folder
  std::uint8_t media;    ///< media byte
  std::uint16_t fat;     ///< sectors a FAT
  std::uint16_t track;   ///< sectors a track
};

Geometry geometry(DiskFormat format) {
  switch (format) {
    case DiskFormat::k360:
      return {720, 2, 112, 0xFD, 2, 9};
    case DiskFormat::k720:
      return {1440, 2, 112, 0xF9, 3, 9};
    case DiskFormat::m1_2:
      return {2400, 1, 224, 0xF9, 7, 15};
    case DiskFormat::m1_44:
      break;
  }
  return {2880, 1, 224, 0xF0, 9, 18};
}

std::size_t first_data_sector(const Geometry& disk) {
  return 1U + 2U * disk.fat + disk.root * entry_size / sector_size;
}

void put_word(std::string& bytes, std::size_t at, std::size_t value) {
  bytes[at] = static_cast<char>(value & 0xFF);
  bytes[at + 1] = static_cast<char>(value >> 8 & 0xFF);
}

/// Bytes 0Bh to 3Dh of the boot sector.
std::string parameter_block(const Geometry& disk) {
  std::string block(51, '\0');
  put_word(block, 0, sector_size);
  block[2] = static_cast<char>(disk.cluster);
  put_word(block, 3, 1);  // reserved sectors: the boot sector
  block[5] = 2;           // FATs
  put_word(block, 6, disk.root);
  put_word(block, 8, disk.sectors);
  block[10] = static_cast<char>(disk.media);
  put_word(block, 11, disk.fat);
  put_word(block, 13, disk.track);
  put_word(block, 15, 2);  // heads
  block[27] = 0x29;        // serial number, label and file system follow
  block.replace(28, 4, "RTCM");
  block.replace(32, 11, "RTCMEND    ");
  block.replace(43, 8, "FAT12   ");
  return block;
}

std::size_t sectors_of(const DiskFile& file) {
  return (file.content.size() + sector_size - 1) / sector_size;
}

void put_fat_entry(std::string& fat, std::size_t cluster, std::size_t value) {
  const std::size_t at = cluster * 3 / 2;
  const std::size_t old =
      static_cast<std::uint8_t>(fat[at]) + 256U * static_cast<std::uint8_t>(fat[at + 1]);
  put_word(fat, at, cluster % 2 == 0 ? (old & 0xF000) | value : (old & 0x000F) | value << 4);
}

std::string folder_entry(const DiskFile& file, std::size_t cluster) {
  std::string entry(entry_size, '\0');
  entry.replace(0, 11, file.name);
  entry[11] = 0x20;         // archive
  put_word(entry, 24, 33);  // 1 January 1980, the first date DOS knows
  put_word(entry, 26, cluster);
  put_word(entry, 28, file.content.size() & 0xFFFF);
  put_word(entry, 30, file.content.size() >> 16);
  return entry;
}

/// What the boot sector computes over the sectors that it loads.
struct Sums {
  std::uint16_t sum = 0, sum_of_sums = 0;
};

Sums sums_of(const DiskFile& program) {
  std::string loaded = program.content;
  loaded.resize(sectors_of(program) * sector_size, '\0');
  Sums sums;
  for (std::size_t at = 0; at < loaded.size(); at += 2) {
    const auto low = static_cast<std::uint8_t>(loaded[at]);
    const auto high = static_cast<std::uint8_t>(loaded[at + 1]);
    sums.sum = static_cast<std::uint16_t>(sums.sum + low + 256 * high);
    sums.sum_of_sums = static_cast<std::uint16_t>(sums.sum_of_sums + sums.sum);
  }
  return sums;
}

std::string boot_sector(DiskFormat format, const DiskFile& program) {
  const Geometry disk = geometry(format);
  Program sector("boot_sector");
  std::string words(name(format));
  words.resize(sector.room("format"), ' ');
  sector.fill("format", words);
  const Sums sums = sums_of(program);
  sector.fill_word("sum", sums.sum);
  sector.fill_word("sum_of_sums", sums.sum_of_sums);
  sector.fill("parameters", parameter_block(disk));
  sector.fill_word("first", static_cast<std::uint16_t>(first_data_sector(disk)));
  sector.fill_word("count", static_cast<std::uint16_t>(sectors_of(program)));
  return {sector.bytes().begin(), sector.bytes().end()};
}

}  // namespace

std::string make_boot_disk(DiskFormat format, std::span<const DiskFile> files) {
  const Geometry disk = geometry(format);
  std::string fat(disk.fat * sector_size, '\0');
  put_fat_entry(fat, 0, 0xF00U | disk.media);
  put_fat_entry(fat, 1, 0xFFF);
  std::string root, data;
  std::size_t cluster = 2;
  const std::size_t cluster_size = disk.cluster * sector_size;
  for (const DiskFile& file : files) {
    root += folder_entry(file, cluster);
    const std::size_t count = (file.content.size() + cluster_size - 1) / cluster_size;
    for (std::size_t i = 1; i <= count; ++i, ++cluster)
      put_fat_entry(fat, cluster, i < count ? cluster + 1 : 0xFFF);
    data += file.content + std::string(count * cluster_size - file.content.size(), '\0');
  }
  root.resize(disk.root * entry_size, '\0');
  std::string image = boot_sector(format, files.front()) + fat + fat + root + data;
  const std::size_t size = disk.sectors * sector_size;
  if (image.size() > size) throw std::logic_error("the files do not fit on the disk");
  image.resize(size, '\0');
  return image;
}

}  // namespace rtcmend
