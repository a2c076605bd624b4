#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "support/run_program.h"
#include "support/sound_images.h"
#include "support/temporary_folder.h"

using namespace rtcmend;
using rtcmend::test::Ran;
using rtcmend::test::run_program;
namespace fs = std::filesystem;

namespace {

void write(const fs::path& path, const std::vector<std::uint8_t>& bytes) {
  fs::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary)
      .write(reinterpret_cast<const char*>(bytes.data()),
             static_cast<std::streamsize>(bytes.size()));
}

void write(const fs::path& path, const std::string& text) {
  fs::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << text;
}

/// The check byte one too high.
std::vector<std::uint8_t> damaged_bytes() {
  auto bytes = at_64_bytes();
  bytes[0x2F] = 0x68;
  return bytes;
}

Ran audit(std::vector<std::string> arguments, const TemporaryFolder& folder) {
  arguments.insert(arguments.begin(), "audit");
  return run_program({RTCMEND_PROGRAM, arguments, folder.path().string(), {}, {}, {}, {}, {}});
}

Ran script(const std::string& text, const TemporaryFolder& folder) {
  return run_program({"/bin/sh",
                      {"-eu", "-c", text, RTCMEND_PROGRAM},
                      folder.path().string(),
                      {},
                      {},
                      {},
                      {},
                      {}});
}

std::vector<nlohmann::json> json_lines(const std::string& text) {
  std::vector<nlohmann::json> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(nlohmann::json::parse(line));
  return lines;
}

std::set<std::string> all_files(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    names.insert(fs::relative(entry.path(), folder).string());
  return names;
}

}  // namespace

TEST_CASE("an audit gives each file of a folder a line, in the order of names, and a summary") {
  const TemporaryFolder folder;
  write(folder / "d/b/sound.bin", at_64_bytes());
  write(folder / "d/a.bin", damaged_bytes());
  write(folder / "d/notes.txt", "where the dumps came from\n");
  write(folder / "d/empty.bin", "");
  const Ran ran = audit({"d"}, folder);
  CHECK(ran.code == 1);
  CHECK(ran.err.empty());
  const auto at = [&](const char* words) { return ran.out.find(words); };
  CHECK(at("     1 broken   a check fails  at              d/a.bin\n") == ran.out.find('\n') + 1);
  CHECK(at("     2 proven   sound          at              d/b/sound.bin\n") < at("d/empty.bin"));
  CHECK(at("     3 no dump  d/empty.bin: it is empty") != std::string::npos);
  CHECK(at("d/notes.txt: ") != std::string::npos);
  CHECK(at("2 dumps: 1 proven, 1 broken or misread\n1 of them sound") != std::string::npos);
  CHECK(at("2 files hold no dump") != std::string::npos);
}

TEST_CASE("an audit of sound dumps alone ends with 0") {
  const TemporaryFolder folder;
  write(folder / "d/one.bin", at_64_bytes());
  write(folder / "d/two.bin", crc_64_bytes());
  CHECK(audit({"d"}, folder).code == 0);
  CHECK(audit({"d/one.bin"}, folder).code == 0);
}

TEST_CASE("an audit in JSON says the same in the same order with one thread and with many") {
  const TemporaryFolder folder;
  for (int i = 0; i < 300; ++i)
    write(folder / ("d/" + std::to_string(i) + ".bin"),
          i % 3 == 0 ? damaged_bytes() : at_64_bytes());
  const Ran alone = audit({"d", "--json", "--jobs", "1"}, folder);
  const Ran many = audit({"d", "--json", "--jobs", "7"}, folder);
  CHECK(alone.out == many.out);
  const auto lines = json_lines(alone.out);
  REQUIRE(lines.size() == 301);
  CHECK(lines[0]["path"] == "d/0.bin");
  CHECK(lines[0]["sound"] == false);
  CHECK(lines[0]["findings"].dump().find("check-mismatch") != std::string::npos);
  CHECK(lines[1]["path"] == "d/1.bin");
  CHECK(lines[1]["sound"] == true);
  CHECK(lines[1]["layout"] == "at");
  CHECK(lines[1]["error"] == nullptr);
  const auto summary = lines.back()["summary"];
  CHECK(summary["complete"] == true);
  CHECK(summary["dumps"] == 300);
  CHECK(summary["sound"] == 200);
  CHECK(summary["layouts"]["at"]["broken"] == 100);
  CHECK(summary["findings"]["check-mismatch"] == 100);
}

TEST_CASE("an audit reads tar and zip archives without unpacking them to the disk") {
  const TemporaryFolder folder;
  write(folder / "d/one.bin", at_64_bytes());
  write(folder / "d/two.bin", damaged_bytes());
  REQUIRE(script("tar -cf plain.tar d; tar -czf packed.tar.gz d; python3 -m zipfile -c all.zip d; "
                 "rm -r d",
                 folder)
              .code == 0);
  const auto before = all_files(folder.path());
  for (const char* name : {"plain.tar", "packed.tar.gz", "all.zip"}) {
    INFO(name);
    const Ran ran = audit({"--json", name}, folder);
    CHECK(ran.code == 1);
    const auto lines = json_lines(ran.out);
    REQUIRE(lines.size() == 3);
    CHECK(lines[0]["path"] == name);
    std::set<std::string> members{lines[0]["member"], lines[1]["member"]};
    CHECK(members == std::set<std::string>{"d/one.bin", "d/two.bin"});
    CHECK(lines.back()["summary"]["sound"] == 1);
    CHECK(lines.back()["summary"]["broken"] == 1);
  }
  CHECK(all_files(folder.path()) == before);
}

TEST_CASE("an archive with names that lead elsewhere, links and devices does no harm") {
  const TemporaryFolder folder;
  write(folder / "in/dump.bin", at_64_bytes());
  REQUIRE(script("cat > make.py <<'END'\n"
                 "import io, tarfile\n"
                 "dump = open('in/dump.bin', 'rb').read()\n"
                 "with tarfile.open('bad.tar', 'w') as tar:\n"
                 "  for name in ('../up.bin', '/tmp/../absolute.bin', 'esc\\x1b[2J.bin'):\n"
                 "    info = tarfile.TarInfo(name); info.size = len(dump)\n"
                 "    tar.addfile(info, io.BytesIO(dump))\n"
                 "  for kind in (tarfile.SYMTYPE, tarfile.LNKTYPE, tarfile.FIFOTYPE, "
                 "tarfile.CHRTYPE, tarfile.DIRTYPE):\n"
                 "    info = tarfile.TarInfo('other'); info.type = kind; info.linkname = "
                 "'/etc/passwd'\n"
                 "    tar.addfile(info)\n"
                 "  info = tarfile.TarInfo('huge.bin'); info.size = 3 << 20\n"
                 "  tar.addfile(info, io.BytesIO(bytes(3 << 20)))\n"
                 "END\n"
                 "python3 make.py; rm -r in make.py",
                 folder)
              .code == 0);
  const Ran ran = audit({"bad.tar"}, folder);
  CHECK(ran.code == 1);
  CHECK(ran.out.find("bad.tar: ../up.bin") != std::string::npos);
  CHECK(ran.out.find("bad.tar: /tmp/../absolute.bin") != std::string::npos);
  CHECK(ran.out.find('\x1b') == std::string::npos);
  CHECK(ran.out.find("huge.bin: it is larger than") != std::string::npos);
  CHECK(ran.out.find("3 dumps: 3 proven\n3 of them sound") != std::string::npos);
  CHECK(ran.out.find("1 file holds no dump") != std::string::npos);
  CHECK(all_files(folder.path()) == std::set<std::string>{"bad.tar"});
  CHECK_FALSE(fs::exists(folder.path().parent_path() / "up.bin"));
}

TEST_CASE("a broken archive is a line, and the audit goes on") {
  const TemporaryFolder folder;
  write(folder / "d/a.tar.gz", "this is no archive");
  write(folder / "d/b.bin", at_64_bytes());
  const Ran ran = audit({"d"}, folder);
  CHECK(ran.code == 1);
  CHECK(ran.out.find("     1 no dump  d/a.tar.gz: ") != std::string::npos);
  CHECK(ran.out.find("     2 proven   sound          at              d/b.bin") !=
        std::string::npos);
}

TEST_CASE("a packed file is judged image by image, and a rest that makes no image is told") {
  const TemporaryFolder folder;
  std::vector<std::uint8_t> packed;
  for (int i = 0; i < 1500; ++i) {
    const auto bytes = i == 700 ? damaged_bytes() : at_64_bytes();
    packed.insert(packed.end(), bytes.begin(), bytes.end());
  }
  packed.resize(packed.size() + 10);
  write(folder / "all.bin", packed);
  const Ran ran = audit({"--packed", "64", "--json", "all.bin", "--layout", "at"}, folder);
  CHECK(ran.code == 1);
  const auto lines = json_lines(ran.out);
  REQUIRE(lines.size() == 1502);
  CHECK(lines[0]["number"] == 0);
  CHECK(lines[699]["sound"] == true);
  CHECK(lines[700]["number"] == 700);
  CHECK(lines[700]["sound"] == false);
  CHECK(lines[1500]["error"] == "the last 10 bytes make no whole image");
  CHECK(lines.back()["summary"]["sound"] == 1499);
}

TEST_CASE(
    "an audit refuses a path that leads nowhere, and sizes that do not fit, before it begins") {
  const TemporaryFolder folder;
  write(folder / "one.bin", at_64_bytes());
  const Ran ran = audit({"one.bin", "no-such"}, folder);
  CHECK(ran.code == 2);
  CHECK(ran.out.empty());
  CHECK(ran.err.find("rtcmend: no-such: ") == 0);
  CHECK(audit({"one.bin", "--packed", "100"}, folder).code == 2);
  CHECK(audit({"one.bin", "--packed", "64", "--layout", "at+sum-40-7d"}, folder).code == 2);
  CHECK(audit({"one.bin", "--jobs", "-3"}, folder).code == 2);
}

TEST_CASE("Ctrl-C ends an audit with a summary that says it is not complete") {
  const TemporaryFolder folder;
  write(folder / "piece.bin", std::vector<std::uint8_t>(64 * 512 * 4, 0x00));
  // The pipe stays open until the audit has shown its first lines, so it is under way by then.
  const Ran ran = script(
      "mkfifo pipe\n"
      "\"$0\" audit --jobs 1 --packed 64 --json pipe > out & audit=$!\n"
      "exec 3> pipe\n"
      "cat piece.bin >&3\n"
      "while [ ! -s out ]; do sleep 0.01; done\n"
      "kill -INT $audit\n"
      "cat piece.bin piece.bin >&3 || true\n"
      "exec 3>&-\n"
      "code=0; wait $audit || code=$?\n"
      "tail -n 1 out\n"
      "exit $code",
      folder);
  CHECK(ran.code == 1);
  const auto summary = nlohmann::json::parse(ran.out).at("summary");
  CHECK(summary["complete"] == false);
  CHECK(summary["dumps"] > 0);
  CHECK(summary["dumps"] < 64 * 512 * 12 / 64);
}

TEST_CASE("numbers of threads and sizes that make no sense are refused before anything is read") {
  const TemporaryFolder folder;
  write(folder / "new.bin", at_64_bytes());
  const auto refused = [&](std::vector<std::string> words, const std::string& message) {
    const Ran ran = audit(std::move(words), folder);
    CHECK(ran.code == 2);
    CHECK(ran.out.empty());
    CHECK(ran.err.starts_with("rtcmend: " + message));
  };
  refused({"new.bin", "--jobs", "-1"}, "--jobs: -1 is not a number of threads");
  refused({"new.bin", "--jobs", "257"}, "--jobs: 257 is not a number of threads");
  refused({"new.bin", "--packed", "64", "--layout", "at+sum-40-7d"},
          "--packed: the layout at+sum-40-7d needs 128 bytes");
  CHECK(audit({"new.bin", "--packed", "64", "--layout", "at", "--jobs", "2"}, folder).code == 0);
  CHECK(audit({"new.bin", "--layout", "at"}, folder).code == 0);
  CHECK(audit({"new.bin", "--layout", "crc+slots-19"}, folder).code == 1);
}

TEST_CASE("a packed file that is empty, or cannot be read on, is a line") {
  const TemporaryFolder folder;
  write(folder / "empty", std::string());
  write(folder / "new.bin", at_64_bytes());
  // Linux: the first page of a process is never there, so reading it fails.
  const Ran ran = audit({"--packed", "64", "empty", "/proc/self/mem", "new.bin"}, folder);
  CHECK(ran.code == 1);
  CHECK(ran.out.find("empty: it is empty\n") != std::string::npos);
  CHECK(ran.out.find("/proc/self/mem: Input/output error\n") != std::string::npos);
  CHECK(ran.out.find("1 dump: 1 proven\n1 of them sound") != std::string::npos);
  CHECK(ran.out.find("2 files hold no dump") != std::string::npos);
}

TEST_CASE("an archive without a file in it gives no line, and what stands behind it is read") {
  const TemporaryFolder folder;
  write(folder / "z.bin", at_64_bytes());
  REQUIRE(script("mkdir d && tar -cf a.tar d && rmdir d", folder).code == 0);
  const Ran ran = audit({"a.tar", "z.bin"}, folder);
  CHECK(ran.code == 0);
  CHECK(ran.out.find("     1 proven   sound          at              z.bin\n") !=
        std::string::npos);
  CHECK(ran.out.find("1 dump: 1 proven\n1 of them sound") != std::string::npos);
}

TEST_CASE("files and large members come out in their order, an archive between files as well") {
  const TemporaryFolder folder;
  for (const char* name : {"a.bin", "m1", "m2", "m3", "m4", "z.bin"})
    write(folder / name, at_64_bytes());
  // More than one batch of members: 200 kB of what is no dump before each that is one.
  REQUIRE(script("head -c 200000 /dev/zero > big; cp big big2; tar -cf b.tar m1 big m2 big2 m3 m4",
                 folder)
              .code == 0);
  const Ran ran = audit({"a.bin", "b.tar", "z.bin", "--jobs", "2", "--json"}, folder);
  CHECK(ran.code == 1);
  std::vector<std::string> names;
  for (const auto& line : json_lines(ran.out))
    if (line.contains("path"))
      names.push_back(line["path"].get<std::string>() + " " + line.value("member", ""));
  CHECK(names == std::vector<std::string>{"a.bin ", "b.tar m1", "b.tar big", "b.tar m2",
                                          "b.tar big2", "b.tar m3", "b.tar m4", "z.bin "});
}

namespace {

/// Three machines and their dumps: sound, with a stopped clock, of a chip nobody knows, broken.
void put_collection(const TemporaryFolder& folder) {
  auto stopped = at_64_bytes();
  stopped[0x0A] = 0x06;
  auto cleared = at_64_bytes();
  std::fill(cleared.begin() + 0x0E, cleared.end(), std::uint8_t{0xFF});
  write(folder / "d/a.bin", at_64_bytes());
  write(folder / "d/b.bin", damaged_bytes());
  write(folder / "d/c.bin", crc_64_bytes());
  write(folder / "d/d.bin", stopped);
  write(folder / "d/e.bin", cleared);
  write(folder / "d/notes.txt", "where the dumps came from\n");
}

std::vector<int> numbers(const Ran& ran) {
  std::vector<int> found;
  for (const auto& line : json_lines(ran.out))
    if (line.contains("line")) found.push_back(line["line"]);
  return found;
}

}  // namespace

TEST_CASE("a copy names the line of the first dump with its settings, whatever its clock says") {
  const TemporaryFolder folder;
  put_collection(folder);
  const Ran ran = audit({"d"}, folder);
  CHECK(ran.out.find("     4 proven   clock stopped  at              d/d.bin =1\n") !=
        std::string::npos);
  CHECK(ran.out.find("1 dump has the settings of one before") != std::string::npos);
  const auto lines = json_lines(audit({"d", "--json"}, folder).out);
  REQUIRE(lines.size() == 7);
  CHECK(lines[3]["copy_of"] == 1);
  CHECK(lines[0]["copy_of"] == nullptr);
  CHECK(lines.back()["summary"]["copies"] == 1);
}

TEST_CASE("an audit shows one kind alone when it is told to, and counts them all") {
  const TemporaryFolder folder;
  put_collection(folder);
  CHECK(numbers(audit({"d", "--json", "--only", "proven"}, folder)) == std::vector{1, 3, 4});
  CHECK(numbers(audit({"d", "--json", "--only", "broken"}, folder)) == std::vector{2, 5, 6});
  CHECK(numbers(audit({"d", "--json", "--only", "unproven"}, folder)).empty());
  const Ran ran = audit({"d", "--only", "unproven"}, folder);
  CHECK(ran.code == 1);
  CHECK(ran.out.find("5 dumps: 3 proven, 2 broken or misread") != std::string::npos);
  CHECK(audit({"d", "--only", "sound"}, folder).code == 2);
}

TEST_CASE("the lines of an audit come in the order that is asked for") {
  const TemporaryFolder folder;
  put_collection(folder);
  const auto sorted = [&](const char* by) {
    return numbers(audit({"d", "--json", "--sort", by, "--jobs", "2"}, folder));
  };
  CHECK(sorted("worth") == std::vector{1, 3, 4, 2, 5, 6});
  CHECK(sorted("name") == std::vector{1, 2, 3, 4, 5, 6});
  CHECK(sorted("copies") == std::vector{1, 4, 2, 3, 5, 6});
  // at, at, at, crc; then those without a layout.
  CHECK(sorted("layout") == std::vector{1, 2, 4, 3, 5, 6});
}

TEST_CASE("an audit as a table has one row a file and nothing else") {
  const TemporaryFolder folder;
  put_collection(folder);
  const Ran ran = audit({"d", "--table", "csv"}, folder);
  CHECK(ran.code == 1);
  CHECK(std::count(ran.out.begin(), ran.out.end(), '\n') == 7);
  CHECK(ran.out.find("\r\n4,proven,clock stopped,\"at\",no,trusted,proven,stopped,oscillator-off,,"
                     "\"d/d.bin\",,1\r\n") != std::string::npos);
  CHECK(audit({"d", "--table", "csv", "--json"}, folder).code == 2);
}

TEST_CASE("no line of an audit is longer than 80 columns, unless it is to be wide") {
  const TemporaryFolder folder;
  const std::string deep = "a collection of dumps/that lies deep/in many folders/of long names/";
  write(folder / ("d/" + deep + "first.bin"), at_64_bytes());
  write(folder / ("d/" + deep + "second.bin"), at_64_bytes());
  write(folder / ("d/" + deep + "third.txt"), std::string(300, 'x'));
  std::istringstream lines(audit({"d"}, folder).out);
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    CHECK(line.size() <= 80);
  }
  const Ran wide = audit({"d", "--wide"}, folder);
  CHECK(wide.out.find(deep + "second.bin =1\n") != std::string::npos);
}

TEST_CASE("what file managers leave behind is no dump, in folders and in archives") {
  const TemporaryFolder folder;
  write(folder / "d/one.bin", at_64_bytes());
  write(folder / "d/._one.bin", at_64_bytes());
  write(folder / "d/Thumbs.db", "no dump at all");
  write(folder / "d/__MACOSX/one.bin", at_64_bytes());
  REQUIRE(script("tar -cf all.tar d", folder).code == 0);
  for (const char* path : {"d", "all.tar"}) {
    INFO(path);
    const Ran ran = audit({path}, folder);
    CHECK(ran.code == 0);
    CHECK(ran.out.find("1 dump: 1 proven") != std::string::npos);
    CHECK(ran.out.find("Passed over: 3 leftovers of file managers and archivers") !=
          std::string::npos);
  }
  // What is named is meant.
  CHECK(audit({"d/._one.bin"}, folder).out.find("1 dump: 1 proven") != std::string::npos);
}

TEST_CASE("archives that are not opened are named as such, inside archives and outside") {
  const TemporaryFolder folder;
  write(folder / "d/one.bin", at_64_bytes());
  REQUIRE(script("tar -cf d/inner.tar d/one.bin; cp d/inner.tar d/renamed; gzip -k d/one.bin; "
                 "printf 'Rar!\\032\\007 something' > d/old.rar; tar -cf all.tar d",
                 folder)
              .code == 0);
  const auto errors = [&](const char* path) {
    std::map<std::string, std::string> found;
    for (const auto& line : json_lines(audit({path, "--json"}, folder).out))
      if (line.contains("error") && line["error"].is_string())
        found[line.value("member", line["path"].get<std::string>())] = line["error"];
    return found;
  };
  auto outside = errors("d"), inside = errors("all.tar");
  CHECK(outside["d/old.rar"] == "an archive of a kind that is not read here (rar): unpack it");
  CHECK(outside["d/one.bin.gz"] == "an archive of a kind that is not read here (gzip): unpack it");
  CHECK(outside["d/renamed"] == "an archive (tar) whose name does not say so: rename it");
  CHECK_FALSE(outside.contains("d/inner.tar"));
  CHECK(inside["d/inner.tar"] ==
        "an archive inside an archive (tar), which is not opened: unpack it");
  CHECK(inside["d/one.bin.gz"] ==
        "an archive inside an archive (gzip), which is not opened: unpack it");
}

TEST_CASE(
    "a link that is named is followed and told, one inside a folder is passed over and told") {
  const TemporaryFolder folder;
  write(folder / "real/one.bin", at_64_bytes());
  REQUIRE(script("ln -s real d; ln -s one.bin real/two.bin", folder).code == 0);
  const Ran ran = audit({"d"}, folder);
  CHECK(ran.code == 0);
  CHECK(ran.out.find("Passed over: 1 link inside folders\nFollowed: d is a link to /") !=
        std::string::npos);
  const auto summary =
      json_lines(audit({"d/", "real/two.bin", "--json"}, folder).out).back()["summary"];
  CHECK(summary["dumps"] == 2);
  CHECK(summary["links_passed_over"] == 1);
  REQUIRE(summary["links_followed"].size() == 2);
  CHECK(summary["links_followed"][1]["path"] == "real/two.bin");
  CHECK(summary["links_followed"][1]["to"].get<std::string>().ends_with("/real/one.bin"));
}
