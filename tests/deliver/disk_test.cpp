#include "deliver/disk.h"

#include <array>
#include <catch2/catch.hpp>

namespace rtcmend::test {

namespace {

unsigned byte_at(const std::string& disk, std::size_t at) {
  return static_cast<unsigned char>(disk.at(at));
}

unsigned word_at(const std::string& disk, std::size_t at) {
  return byte_at(disk, at) + 256 * byte_at(disk, at + 1);
}

std::string disk_with_two_files(DiskFormat format) {
  const std::array files{DiskFile{"FIRST   SYS", std::string(1500, 'F')},
                         DiskFile{"SECOND  COM", "second"}};
  return make_boot_disk(format, files);
}

}  // namespace

// The parameter blocks that DOS writes on such disks: common practice, no source.
TEST_CASE("every format has the parameter block that DOS knows it by") {
  const auto [format, sectors, cluster, root, media, fat, track] =
      GENERATE(table<DiskFormat, unsigned, unsigned, unsigned, unsigned, unsigned, unsigned>({
          {DiskFormat::k360, 720, 2, 112, 0xFD, 2, 9},
          {DiskFormat::k720, 1440, 2, 112, 0xF9, 3, 9},
          {DiskFormat::m1_2, 2400, 1, 224, 0xF9, 7, 15},
          {DiskFormat::m1_44, 2880, 1, 224, 0xF0, 9, 18},
      }));
  const std::string disk = disk_with_two_files(format);
  CHECK(disk.size() == sectors * 512);
  CHECK(byte_at(disk, 0) == 0xEB);
  CHECK(word_at(disk, 0x0B) == 512);
  CHECK(byte_at(disk, 0x0D) == cluster);
  CHECK(word_at(disk, 0x0E) == 1);
  CHECK(byte_at(disk, 0x10) == 2);
  CHECK(word_at(disk, 0x11) == root);
  CHECK(word_at(disk, 0x13) == sectors);
  CHECK(byte_at(disk, 0x15) == media);
  CHECK(word_at(disk, 0x16) == fat);
  CHECK(word_at(disk, 0x18) == track);
  CHECK(word_at(disk, 0x1A) == 2);
  CHECK(disk.substr(0x36, 8) == "FAT12   ");
  CHECK(word_at(disk, 510) == 0xAA55);
}

TEST_CASE("the files of a 1.44 MB disk stand in the root folder and one behind the other") {
  const std::string disk = disk_with_two_files(DiskFormat::m1_44);
  // Sector 1 and 10: the FATs. 1500 bytes are three clusters, 2 to 4: 003h, 004h, FFFh; then FFFh.
  CHECK(disk.substr(512, 9) == std::string("\xF0\xFF\xFF\x03\x40\x00\xFF\xFF\xFF", 9));
  CHECK(disk.substr(512, 9 * 512) == disk.substr(10 * 512, 9 * 512));
  constexpr std::size_t root = 19 * 512, data = 33 * 512;
  CHECK(disk.substr(root, 11) == "FIRST   SYS");
  CHECK(word_at(disk, root + 26) == 2);
  CHECK(word_at(disk, root + 28) == 1500);
  CHECK(disk.substr(root + 32, 11) == "SECOND  COM");
  CHECK(word_at(disk, root + 32 + 26) == 5);
  CHECK(disk.substr(data, 3) == "FFF");
  CHECK(disk.substr(data + 3 * 512, 6) == "second");
}

}  // namespace rtcmend::test
