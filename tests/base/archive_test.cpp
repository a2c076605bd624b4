#include "base/archive.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <unistd.h>

#include "base/error.h"

using namespace rtcmend;

namespace {

/// A folder in which a shell command was run; gone at the end.
struct Made {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() / ("rtcmend-archive-" + std::to_string(::getpid()));
  explicit Made(const std::string& command) {
    std::filesystem::create_directories(path);
    const std::string whole = "cd '" + path.string() + "' && " + command;
    REQUIRE(std::system(whole.c_str()) == 0);
  }
  ~Made() { std::filesystem::remove_all(path); }
  std::string operator/(const char* name) const { return (path / name).string(); }
};

}  // namespace

TEST_CASE("archives are told by the ends of their names, in either case") {
  for (const char* name :
       {"a.tar", "a.TAR.GZ", "x/y.tgz", "b.tar.bz2", "b.tar.xz", "b.tar.zst", "c.Zip"})
    CHECK(is_archive_name(name));
  for (const char* name : {"a.bin", "tar", "zip", "a.gz", "a.tar.txt"})
    CHECK_FALSE(is_archive_name(name));
}

TEST_CASE("the members of a packed tar come in its order, with their bytes") {
  const Made made("printf one > 1; printf two > 2; tar -czf a.tgz 2 1");
  Archive archive(made / "a.tgz");
  const auto first = archive.next(), second = archive.next();
  REQUIRE((first && second));
  CHECK(first->name == "2");
  CHECK(first->content == "two");
  CHECK(second->name == "1");
  CHECK(second->content == "one");
  CHECK_FALSE(archive.next());
}

TEST_CASE("a member that is too large is trouble, and the next one is read") {
  const Made made("head -c 1048577 /dev/zero > big; printf fine > small; tar -cf a.tar big small");
  Archive archive(made / "a.tar");
  const auto big = archive.next(), small = archive.next();
  REQUIRE((big && small));
  CHECK(big->content.empty());
  CHECK(big->trouble == "it is larger than 1048576 bytes");
  CHECK(small->content == "fine");
}

TEST_CASE("an archive that unpacks far beyond its size is not read on") {
  const Made made("head -c 8000000 /dev/zero > big; tar -czf a.tar.gz big");
  Archive patient(made / "a.tar.gz");
  CHECK(patient.next());
  Archive archive(made / "a.tar.gz", {1 << 20, 200});
  CHECK_THROWS_AS(archive.next(), Error);
}

TEST_CASE("a cut archive gives what it has and then an error") {
  const Made made(
      "printf one > 1; head -c 300000 /dev/urandom > 2; tar -cf whole.tar 1 2; "
      "head -c 100000 whole.tar > cut.tar");
  Archive archive(made / "cut.tar");
  CHECK(archive.next()->content == "one");
  CHECK_THROWS_AS(archive.next(), Error);
}

TEST_CASE("what is no archive is refused") {
  const Made made("printf 'nothing of the kind' > a.zip; : > b.tar");
  CHECK_THROWS_AS(Archive(made / "a.zip").next(), Error);
  CHECK_THROWS_AS(Archive(made / "missing.tar"), Error);
  CHECK_THROWS_AS(Archive(made / "b.tar").next(), Error);
}

namespace {

/// An archive that Python writes: `t` is a tar's file, `z` a zip's, both of a given name.
struct Python : Made {
  explicit Python(const std::string& lines)
      : Made("python3 - <<'END'\nimport io, struct, tarfile, zipfile\n" + lines + "END") {}
};

}  // namespace

TEST_CASE("names beyond ASCII come out of tar and zip archives alike") {
  const Python made(
      "info = tarfile.TarInfo('caf\\u00e9.bin'); info.size = 3\n"
      "for form in (tarfile.PAX_FORMAT, tarfile.GNU_FORMAT):\n"
      "  with tarfile.open('%d.tar' % form, 'w', format=form) as t:\n"
      "    t.addfile(info, io.BytesIO(b'one'))\n"
      "with zipfile.ZipFile('a.zip', 'w') as z: z.writestr('caf\\u00e9.bin', 'one')\n");
  for (const char* name : {"1.tar", "2.tar", "a.zip"}) {
    INFO(name);
    Archive archive(made / name);
    const auto member = archive.next();
    REQUIRE(member);
    CHECK(member->name == "caf\xC3\xA9.bin");
    CHECK(member->content == "one");
  }
}

TEST_CASE("a name that is no UTF-8 where it says so does not hide the member") {
  const Python made(
      "with zipfile.ZipFile('a.zip', 'w') as z: z.writestr('caf\\u00e9.bin', 'one')\n"
      "b = open('a.zip', 'rb').read().replace(b'\\xc3\\xa9', b'\\xc3(')\n"
      "open('a.zip', 'wb').write(b)\n");
  Archive archive(made / "a.zip");
  const auto member = archive.next();
  REQUIRE(member);
  CHECK(member->name == "(a name that cannot be read)");
  CHECK(member->content == "one");
}

TEST_CASE("a name longer than any path is cut") {
  const Python made(
      "info = tarfile.TarInfo('x' * 5000); info.size = 3\n"
      "with tarfile.open('a.tar', 'w', format=tarfile.PAX_FORMAT) as t:\n"
      "  t.addfile(info, io.BytesIO(b'one'))\n");
  Archive archive(made / "a.tar");
  CHECK(archive.next()->name == std::string(4096, 'x') + " ...");
}

TEST_CASE("a damaged header ends a tar with the reason") {
  const Made made(
      "printf one > 1; printf two > 2; tar -cf a.tar 1 2; "
      "printf 3 | dd of=a.tar bs=1 seek=1024 conv=notrunc status=none");
  Archive archive(made / "a.tar");
  CHECK(archive.next()->content == "one");
  try {
    archive.next();
    FAIL("accepted");
  } catch (const Error& error) {
    CHECK(error.message() == "the archive cannot be read on: Damaged tar archive");
  }
}

TEST_CASE("a member of a zip that is damaged, or packed in an unknown way, is trouble for itself") {
  const Python made(
      "with zipfile.ZipFile('a.zip', 'w') as z:\n"
      "  z.writestr('1', 'one'); z.writestr('2', 'two'); z.writestr('3', 'three')\n"
      "b = bytearray(open('a.zip', 'rb').read())\n"
      "b[b.index(b'one')] = ord('x')\n"
      "b[b.index(b'2two') - 22] = 99\n"
      "at = b.index(b'PK\\1\\2', b.index(b'PK\\1\\2') + 1); b[at + 10] = 99\n"
      "open('a.zip', 'wb').write(b)\n");
  Archive archive(made / "a.zip");
  const auto first = archive.next(), second = archive.next(), third = archive.next();
  REQUIRE((first && second && third));
  CHECK(first->content.empty());
  CHECK(first->trouble.find("CRC") != std::string::npos);
  CHECK(second->content.empty());
  CHECK(second->trouble.find("99") != std::string::npos);
  CHECK(third->content == "three");
  CHECK_FALSE(archive.next());
}

TEST_CASE("a hard link that carries data is passed over like any other") {
  const Python made(
      "link = tarfile.TarInfo('link'); link.type = tarfile.LNKTYPE; link.linkname = 'real'\n"
      "link.size = 3; link.pax_headers = {'comment': 'made for the test'}\n"
      "real = tarfile.TarInfo('real'); real.size = 3\n"
      "with open('a.tar', 'wb') as f:\n"
      "  f.write(link.tobuf(tarfile.PAX_FORMAT) + b'two'.ljust(512, bytes(1)))\n"
      "  f.write(real.tobuf(tarfile.PAX_FORMAT) + b'one'.ljust(512, bytes(1)) + bytes(1024))\n");
  Archive archive(made / "a.tar");
  const auto member = archive.next();
  REQUIRE(member);
  CHECK(member->name == "real");
  CHECK(member->content == "one");
  CHECK_FALSE(archive.next());
}

TEST_CASE("folders and links are passed over, however they are written") {
  const Python made(
      "with tarfile.open('a.tar', 'w') as t:\n"
      "  for name, kind in (('soft', b'2'), ('hard', b'1'), ('folder', b'5')):\n"
      "    info = tarfile.TarInfo(name); info.type = kind; info.linkname = 'real'\n"
      "    t.addfile(info)\n"
      "  info = tarfile.TarInfo('real'); info.size = 3; t.addfile(info, io.BytesIO(b'one'))\n"
      "with zipfile.ZipFile('a.zip', 'w') as z:\n"
      "  folder = zipfile.ZipInfo('folder/'); folder.external_attr = 0o100644 << 16\n"
      "  z.writestr(folder, 'abc'); z.writestr('real', 'one')\n");
  for (const char* name : {"a.tar", "a.zip"}) {
    INFO(name);
    Archive archive(made / name);
    const auto member = archive.next();
    REQUIRE(member);
    CHECK(member->name == "real");
    CHECK_FALSE(archive.next());
  }
}

TEST_CASE("an archive that is large, but packed little, is read to its end") {
  const Made made("head -c 300000 /dev/urandom > 1; tar -czf a.tgz 1");
  Archive archive(made / "a.tgz", {1000, 200});
  CHECK(archive.next()->content.size() == 300000);
  CHECK_FALSE(archive.next());
}

TEST_CASE("an archive of nothing but names is not read without end") {
  const Python made(
      "with tarfile.open('a.tgz', 'w:gz') as t:\n"
      "  for i in range(4000): t.addfile(tarfile.TarInfo('empty'))\n"
      "with tarfile.open('b.tgz', 'w:gz') as t:\n"
      "  for i in range(4000):\n"
      "    info = tarfile.TarInfo('link'); info.type = tarfile.SYMTYPE; t.addfile(info)\n");
  // 4000 headers of 512 bytes, packed to a few thousand: more than 100,000 bytes, and 50 times.
  for (const char* name : {"a.tgz", "b.tgz"}) {
    INFO(name);
    Archive archive(made / name, {.bytes = 100000, .times_its_size = 50});
    CHECK_THROWS_WITH(
        [&] {
          while (archive.next()) {
          }
        }(),
        Catch::Contains("times its own size"));
    Archive counted(made / name, {.members = 100});
    CHECK_THROWS_WITH(
        [&] {
          while (counted.next()) {
          }
        }(),
        Catch::Contains("more than 100 members"));
  }
}

TEST_CASE(
    "an archive in which nothing is a file ends when it is told to stop, not when it is over") {
  const Made made("mkdir -p d && (cd d && seq 100 | xargs mkdir -p) && tar -cf a.tar d");
  int asked = 0;
  Archive archive(made / "a.tar", {}, [&] { return ++asked > 3; });
  CHECK_FALSE(archive.next());
  CHECK(asked == 4);
}
