// Outputs that are no plain file in a plain folder: full and read-only file systems, folders that
// are gone or closed, links, pipes, devices. What must hold is in docs/limits.md, "Writing".
#include <catch2/catch.hpp>
#include <filesystem>
#include <sys/mount.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <unistd.h>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;
namespace fs = std::filesystem;

namespace {

constexpr const char* one_reading =
    "{\"shown\":\"2031-05-01T12:00:00\",\"reference\":\"2031-05-01T12:00:00\","
    "\"daylight_saving\":false,\"running\":null}\n";

/// A file system in memory below a workbench, gone at the end.
class SmallDisk {
 public:
  SmallDisk(const Workbench& bench, const char* options) : place_(bench.path("disk")) {
    fs::create_directory(place_);
    mounted_ = ::mount("tmpfs", place_.c_str(), "tmpfs", 0, options) == 0;
    if (!mounted_) WARN("skipped: mounting a small file system needs root");
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  ~SmallDisk() {
    if (mounted_) ::umount2(place_.c_str(), MNT_DETACH);
  }
  bool mounted() const { return mounted_; }
  bool close_to_writers() const {
    return ::mount("none", place_.c_str(), "tmpfs", MS_REMOUNT | MS_RDONLY, "") == 0;
  }
  std::size_t files() const {
    const fs::directory_iterator all(place_);
    return static_cast<std::size_t>(std::distance(begin(all), end(all)));
  }

 private:
  std::string place_;
  bool mounted_ = false;
};

/// The words of one reading, for a log.
std::vector<std::string> drift_into(const std::string& log) {
  return {"drift", "2031-05-31T12:00:30", "--at", "2031-05-31T12:00:00", "--log", log};
}

void refused_by_the_system(const Ran& ran, const std::string& output) {
  INFO(ran.err);
  CHECK(ran.code == 3);
  CHECK(complains(ran, output + ":", "\ntry: "));
}

}  // namespace

TEST_CASE("a full disk takes nothing and loses nothing") {
  const Workbench bench;
  const SmallDisk disk(bench, "size=16k");  // four pages
  if (!disk.mounted()) return;
  bench.put("in.bin", at_64_bytes());
  bench.put("disk/old.bin", "old");
  // A log that ends with its page, so that a line more needs another one.
  const std::string log = one_reading + std::string(4096 - std::string(one_reading).size(), '\n');
  bench.put("disk/clock.log", log);
  bench.put("disk/filler", std::string(8192, 'x'));
  refused_by_the_system(bench.run({"seal", "in.bin", "-o", "disk/new.bin"}), "disk/new.bin");
  refused_by_the_system(bench.run({"seal", "in.bin", "-o", "disk/old.bin", "--force"}),
                        "disk/old.bin");
  refused_by_the_system(bench.run({"sheet", "in.bin", "-o", "disk/new.html"}), "disk/new.html");
  refused_by_the_system(
      bench.run({"deliver", "in.bin", "--as", "boot-floppy", "-o", "disk/new.img"}),
      "disk/new.img");
  refused_by_the_system(bench.run(drift_into("disk/clock.log")), "disk/clock.log");
  refused_by_the_system(bench.run(drift_into("disk/new.log")), "disk/new.log");
  CHECK(disk.files() == 3);
  CHECK(bench.get("disk/old.bin") == "old");
  CHECK(bench.get("disk/clock.log") == log);
}

TEST_CASE("a description that the disk has no room for leaves no image either") {
  const Workbench bench;
  const SmallDisk disk(bench, "size=4k");
  if (!disk.mounted()) return;
  bench.put("machine.json", R"({"layout": "at", "clock": "2031-05-14T09:30:00"})");
  bench.put("disk/filler", std::string(4096, 'x'));
  refused_by_the_system(
      bench.run({"compose", "machine.json", "--save", "disk/kept.json", "-o", "out.bin"}),
      "disk/kept.json");
  CHECK_FALSE(bench.has("out.bin"));
  CHECK(disk.files() == 1);
}

TEST_CASE("a disk that takes no more files keeps the old one") {
  const Workbench bench;
  const SmallDisk disk(bench, "size=64k,nr_inodes=2");  // the root and one file
  if (!disk.mounted()) return;
  bench.put("in.bin", at_64_bytes());
  bench.put("disk/old.bin", "old");
  refused_by_the_system(bench.run({"seal", "in.bin", "-o", "disk/new.bin"}), "disk/new.bin");
  refused_by_the_system(bench.run({"seal", "in.bin", "-o", "disk/old.bin", "--force"}),
                        "disk/old.bin");
  CHECK(disk.files() == 1);
  CHECK(bench.get("disk/old.bin") == "old");
}

TEST_CASE("a read-only file system is left alone") {
  const Workbench bench;
  const SmallDisk disk(bench, "size=64k");
  if (!disk.mounted()) return;
  bench.put("in.bin", at_64_bytes());
  bench.put("disk/old.bin", "old");
  bench.put("disk/clock.log", one_reading);
  REQUIRE(disk.close_to_writers());
  refused_by_the_system(bench.run({"seal", "in.bin", "-o", "disk/new.bin"}), "disk/new.bin");
  refused_by_the_system(bench.run({"seal", "in.bin", "-o", "disk/old.bin", "--force"}),
                        "disk/old.bin");
  refused_by_the_system(bench.run(drift_into("disk/clock.log")), "disk/clock.log");
  CHECK(disk.files() == 2);
  CHECK(bench.get("disk/old.bin") == "old");
  CHECK(bench.get("disk/clock.log") == one_reading);
}

TEST_CASE("a folder that the user may not write in is left alone") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  fs::create_directory(bench.path("closed"));
  bench.put("closed/old.bin", "old");
  fs::permissions(bench.path("closed/old.bin"), fs::perms(0444));
  fs::permissions(bench.path("closed"), fs::perms(0555));
  fs::permissions(bench.path("."), fs::perms(0755));
  // Root may write everywhere, so someone else must try.
  const auto nobody = bench.rtcmend_as_nobody();
  if (!nobody) {
    WARN("skipped: rtcmend cannot be run by another user here");
    return;
  }
  refused_by_the_system(bench.shell(*nobody + "seal in.bin -o closed/new.bin"), "closed/new.bin");
  refused_by_the_system(bench.shell(*nobody + "seal in.bin -o closed/old.bin --force"),
                        "closed/old.bin");
  refused_by_the_system(
      bench.shell(*nobody + "drift 2031-05-31T12:00:30 --at 2031-05-31T12:00:00 --log "
                            "closed/new.log"),
      "closed/new.log");
  CHECK(bench.get("closed/old.bin") == "old");
  CHECK_FALSE(bench.has("closed/new.bin"));
  CHECK_FALSE(bench.has("closed/new.log"));
}

TEST_CASE("a folder that is not there, is a file, or vanished under the program is told") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  for (const std::string output : {"gone/out.bin", "in.bin/out.bin"}) {
    const Ran ran = bench.run({"seal", "in.bin", "-o", output});
    refused_by_the_system(ran, output);
    CHECK(ran.err.find("make the folder first") != std::string::npos);
  }
  refused_by_the_system(bench.run(drift_into("gone/clock.log")), "gone/clock.log");
  const std::string leave = "mkdir gone && cd gone && rmdir ../gone && ";
  refused_by_the_system(
      bench.shell(leave + "\"$0\" seal '" + bench.path("in.bin") + "' -o out.bin"), "out.bin");
  CHECK(bench.files() == 1);
}

TEST_CASE("behind a link the file is replaced, and the link stays") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  bench.put("real.bin", "old");
  fs::create_symlink("real.bin", bench.path("link"));
  CHECK(complains(bench.run({"seal", "in.bin", "-o", "link"}), "link:", "it exists already"));
  CHECK(bench.get("real.bin") == "old");
  CHECK(bench.run({"seal", "in.bin", "-o", "link", "--force"}).code == 0);
  CHECK(fs::is_symlink(bench.path("link")));
  CHECK(bench.bytes("real.bin") == at_64_bytes());
  CHECK(bench.files() == 3);
}

TEST_CASE("nothing is made behind a link that leads nowhere, to itself, or to the input") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  fs::create_symlink("nothing.bin", bench.path("dangling"));
  fs::create_symlink("circle", bench.path("circle"));
  fs::create_symlink("in.bin", bench.path("input"));
  for (const std::string link : {"dangling", "circle", "input"}) {
    INFO(link);
    const Ran ran = bench.run({"seal", "in.bin", "-o", link, "--force"});
    CHECK(ran.code == 2);
    CHECK(complains(ran, link + ":", "\ntry: "));
    CHECK(fs::is_symlink(bench.path(link)));
  }
  CHECK(complains(bench.run(drift_into("dangling")), "dangling:", "leads nowhere"));
  CHECK(bench.bytes("in.bin") == at_64_bytes());
  CHECK(bench.files() == 4);
}

TEST_CASE("a named pipe passes everything on, and one whose reader leaves is told") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  REQUIRE(::mkfifo(bench.path("pipe").c_str(), 0600) == 0);
  CHECK(bench.shell("cat pipe > got.bin & \"$0\" seal in.bin -o pipe; code=$?; wait; exit $code")
            .code == 0);
  CHECK(bench.bytes("got.bin") == at_64_bytes());
  // A floppy's image is larger than what a pipe holds, so the reader is gone before it is through.
  const Ran left = bench.shell(
      "head -c 1 pipe > got.bin & \"$0\" deliver in.bin --as boot-floppy -o pipe; code=$?; "
      "wait; exit $code");
  refused_by_the_system(left, "pipe");
  CHECK(fs::is_fifo(bench.path("pipe")));
}

TEST_CASE("devices are written straight: one takes all, one is full, a disk wants --force") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  CHECK(bench.run({"seal", "in.bin", "-o", "/dev/null"}).code == 0);
  CHECK(fs::is_character_file("/dev/null"));
  refused_by_the_system(bench.run({"seal", "in.bin", "-o", "/dev/full"}), "/dev/full");
  if (::mknod(bench.path("drive").c_str(), S_IFBLK | 0600, makedev(1, 0)) != 0) {
    WARN("skipped: making a disk's device needs root");
    return;
  }
  const Ran ran = bench.run({"deliver", "in.bin", "--as", "boot-floppy", "-o", "drive"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "drive:", "it is a disk"));
}

TEST_CASE("a log is a file: pipes, devices and folders are refused at once") {
  const Workbench bench;
  REQUIRE(::mkfifo(bench.path("pipe").c_str(), 0600) == 0);
  fs::create_directory(bench.path("folder"));
  for (const std::string log : {"pipe", "folder", "/dev/full", "-"}) {
    INFO(log);
    const Ran ran = bench.run(drift_into(log));
    CHECK(ran.code == 2);
    CHECK(complains(ran, log + ":", "a log is kept in a file"));
    CHECK(ran.out.empty());
  }
}

TEST_CASE("an image and its description have two names, and neither is written without the other") {
  const Workbench bench;
  bench.put("machine.json", R"({"layout": "at", "clock": "2031-05-14T09:30:00"})");
  for (const std::string other : {"out", "./out"}) {
    const Ran ran = bench.run({"compose", "machine.json", "-o", "out", "--save", other});
    CHECK(ran.code == 2);
    CHECK(complains(ran, "--save:", "cannot have one name"));
  }
  CHECK(bench.files() == 1);
  // Without a field set, every byte of this layout's RAM is 00, and a blank image is never sound.
  bench.put("blank.json", R"({"layout": "chip"})");
  const Ran ran = bench.run({"compose", "blank.json", "-o", "out", "--save", "kept"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "blank.json:", "would not be sound"));
  CHECK(bench.files() == 2);
}
