// Files and pipes made to hurt, one for each bound in docs/limits.md: each is refused, or read with
// a bounded result, and none of them steers the terminal.
#include <array>
#include <catch2/catch.hpp>
#include <filesystem>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

using Words = std::vector<std::string>;

/// Every way in which a command reads the file `bad`.
const std::vector<Words> readers = {
    {"show", "bad"},
    {"convert", "bad", "--to", "hex", "-o", "out"},
    {"compare", "in.bin", "bad"},
    {"explain", "163", "--dump", "bad"},
    {"solve", "in.bin", "bad"},
    {"compose", "bad", "-o", "out"},
    {"trace", "bad"},
    {"trace", "--step", "b=none:in.bin", "--step", "b=1.44M:changed.bin", "--into", "bad", "-o",
     "out"},
    {"drift", "--log", "bad"},
    {"drift", "bad", "--at", "2031-05-14T09:30:00", "--log", "out"},
    {"layouts", "check", "bad"},
    {"show", "in.bin", "--layout", "./bad"},
    {"sheet", "bad", "-o", "out"},
    {"page", "bad", "-o", "out"},
};

/// Puts the content where every command reads it; all must refuse it with words, or of their own.
void refused_everywhere(const Workbench& bench, const std::string& words) {
  bench.put("in.bin", at_64_bytes());
  auto changed = at_64_bytes();
  changed[0x10] = 0x44, changed[0x2F] = 0x6B;  // the second floppy drive 1.44M, and the sum with it
  bench.put("changed.bin", changed);
  for (const Words& command : readers) {
    INFO(command[0] << " " << command[1]);
    const Ran ran = bench.run(command);
    INFO(ran.err.substr(0, 300));
    CHECK(ran.code == 2);
    CHECK(ran.err.starts_with("rtcmend: "));
    CHECK(ran.err.find(words) != std::string::npos);
    CHECK(ran.err.size() < 20000);
    CHECK_FALSE(bench.has("out"));
  }
}

void refuses_layout(const std::string& fields, const std::string& checks,
                    const std::string& words) {
  const Workbench bench;
  bench.put("mine.json", R"({"layout": "mine", "title": "Mine", "fields": [)" + fields +
                             R"(], "checks": [)" + checks + "]}");
  const Ran ran = bench.run({"layouts", "check", "mine.json"});
  INFO(ran.err.substr(0, 300));
  CHECK(ran.code == 2);
  CHECK(complains(ran, "mine.json", words));
  CHECK(ran.err.size() < 20000);
}

std::string repeated(const std::string& piece, std::size_t times) {
  std::string text;
  for (std::size_t i = 0; i < times; ++i) text += (i > 0 ? "," : "") + piece;
  return text;
}

std::string crc_over(const std::string& ranges) {
  return R"({"id": "c", "source": "s", "crc": {"width": 16, "poly": "1021", "init": "FFFF",
      "refin": false, "refout": false, "xorout": "0000"}, "over": [)" +
         ranges + R"(], "stored": {"at": "3E", "order": "high-first"}})";
}

/// Control characters and the marks that turn the direction of writing (Unicode 15: category Cc,
/// and the property Bidi_Control), in UTF-8.
bool steers_a_terminal(const std::string& text) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    const auto byte = static_cast<unsigned char>(text[at]);
    if ((byte < 0x20 && byte != '\n') || byte == 0x7F) return true;
    if (byte == 0xC2 && at + 1 < text.size() && static_cast<unsigned char>(text[at + 1]) < 0xA0)
      return true;
  }
  for (const char* mark : {"\xD8\x9C", "\xE2\x80\x8E", "\xE2\x80\x8F", "\xE2\x80\xAA",
                           "\xE2\x80\xAB", "\xE2\x80\xAC", "\xE2\x80\xAD", "\xE2\x80\xAE",
                           "\xE2\x81\xA6", "\xE2\x81\xA7", "\xE2\x81\xA8", "\xE2\x81\xA9"})
    if (text.find(mark) != std::string::npos) return true;
  return false;
}

/// Red, clear the screen, a title, a bell, a C1 control, right-to-left, carriage return.
const std::string steering =
    "\x1b[31m\x1b[2J\x1b]0;owned\x07\xC2\x9B"
    "5m\xE2\x80\xAEtxt\r";
/// The same as JSON says it.
const std::string steering_json =
    "\\u001b[31m\\u001b[2J\\u001b]0;owned\\u0007\\u009b5m\\u202etxt\\r";

}  // namespace

TEST_CASE("a gigabyte is refused wherever a file is read") {
  const Workbench bench;
  bench.put("bad", "");
  std::filesystem::resize_file(bench.path("bad"), std::uintmax_t{1} << 30);
  refused_everywhere(bench, "it is larger than 1048576 bytes");
  const Ran ran = bench.run({"audit", "bad"});
  CHECK(ran.code == 1);
  CHECK(ran.out.find("larger than 1048576 bytes") != std::string::npos);
}

TEST_CASE("pipes that never end are left after a mebibyte") {
  const Workbench bench;
  for (const std::string line :
       {"yes | \"$0\" show -", "cat /dev/zero | \"$0\" verify -",
        "cat /dev/zero | \"$0\" compose - -o out", "yes 00 | \"$0\" convert - --to raw -o out"}) {
    INFO(line);
    const Ran ran = bench.shell(line);
    CHECK(ran.code == 2);
    CHECK(complains(ran, "standard input:", "larger than 1048576 bytes"));
  }
  for (const std::string answers : {"yes no", "cat /dev/zero"}) {
    const Ran ran = bench.shell(answers + " | \"$0\" compose --ask --layout at -o out");
    CHECK(ran.code == 2);
    CHECK(complains(ran, "the answers:", "longer than 65536 bytes"));
  }
  CHECK(bench.files() == 0);
}

TEST_CASE("JSON nested half a million deep is refused wherever JSON is read") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  for (const std::string opening : {"[", "{\"a\":"}) {
    std::string deep;
    while (deep.size() < 500000) deep += opening;
    bench.put("bad", deep);
    for (const Words& command : std::vector<Words>{{"layouts", "check", "bad"},
                                                   {"compose", "bad", "-o", "out"},
                                                   {"trace", "bad"},
                                                   {"drift", "--log", "bad"},
                                                   {"show", "bad", "--form", "json"},
                                                   {"show", "in.bin", "--layout", "./bad"}}) {
      INFO(command[0]);
      const Ran ran = bench.run(command);
      CHECK(ran.code == 2);
      CHECK(ran.err.find("bad") != std::string::npos);
      CHECK(ran.err.find("it is nested deeper than 32 levels") != std::string::npos);
    }
  }
}

TEST_CASE("words of a million letters are refused, and not repeated in full", "[long]") {
  const Workbench bench;
  const std::string long_word(1000000, 'x');
  for (const std::string& text :
       {"{\"" + long_word + "\": 1}", "{\"layout\": \"" + long_word + "\", \"set\": {}}",
        "{\"layout\": \"at\", \"set\": {\"floppy_a\": \"" + long_word + "\"}}", long_word,
        std::string(1000000, '\n'), std::string(1000000, '0'), std::string(1000000, ':')}) {
    bench.put("bad", text);
    refused_everywhere(bench, "");
  }
}

TEST_CASE("a layout of hundreds of fields too many is refused, whatever they are", "[long]") {
  const std::string field =
      R"({"id": "a", "label": "A", "group": "g", "source": "s", "at": "10", "number": {}})";
  refuses_layout(repeated(field, 513), "", "/fields");
  refuses_layout(repeated(field, 5000), "", "/fields");
  refuses_layout(repeated("{}", 340000), "", "/fields");
  refuses_layout(repeated("{}", 1000000), "", "larger than 1048576 bytes");
}

TEST_CASE("a layout's addresses end with its chip") {
  for (const std::string at : {"80", "-1", "100", "10-3B9ACA00", "4294967296", "0x10"})
    refuses_layout(R"({"id": "a", "label": "A", "group": "g", "source": "s", "at": ")" + at +
                       R"(", "number": {}})",
                   "", "/fields/0");
  refuses_layout(
      R"({"id": "a", "label": "A", "group": "g", "source": "s", "at": -1, "number": {}})", "",
      "/fields/0");
}

TEST_CASE("a check over a thousand million bytes or ranges is refused") {
  refuses_layout("", crc_over(R"("10-3B9ACA00")"), "/checks/0");
  refuses_layout("", crc_over(repeated(R"("10-2D")", 16)), "10h twice");
  refuses_layout("", crc_over(repeated(R"("10-2D")", 17)), "/checks/0");
  refuses_layout("", crc_over(repeated(R"("10-2D")", 100000)), "/checks/0");
  refuses_layout("", repeated(crc_over(R"("10-2D")"), 33), "/checks");
}

TEST_CASE("a session ends after a thousand steps") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  const std::string step = R"({"dump": "in.bin"})";
  bench.put("many.json", R"({"steps": [)" + repeated(step, 1001) + "]}");
  CHECK(
      complains(bench.run({"trace", "many.json"}), "many.json at /steps:", "more than 1000 steps"));
  bench.put("more.json", R"({"steps": [)" + repeated(step, 100000) + "]}");
  const Ran ran = bench.run({"trace", "more.json"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "more.json:", "larger than 1048576 bytes"));
}

TEST_CASE("numbers that are none, keys given twice and broken text in JSON are refused") {
  const Workbench bench;
  for (const std::string set :
       {R"("base_memory_kib": NaN)", R"("base_memory_kib": 1e999)", R"("base_memory_kib": -1)",
        R"("base_memory_kib": 99999999999999999999)", R"("base_memory_kib": 640.5)",
        R"("floppy_a": "none", "floppy_a": "360K")", "\"floppy_a\": \"\xFF\xFE\"",
        "\"floppy_a\": \"none\x01\""}) {
    INFO(set);
    bench.put("bad.json", R"({"layout": "at", "set": {)" + set + "}}");
    const Ran ran = bench.run({"compose", "bad.json", "-o", "out"});
    CHECK(ran.code == 2);
    CHECK(complains(ran, "bad.json", ""));
    CHECK(bench.files() == 1);
  }
}

TEST_CASE("an archive of archives is looked into once") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  REQUIRE(
      bench.shell("tar -cf 0.tar in.bin; for i in 1 2 3 4 5; do tar -cf $i.tar $((i-1)).tar; done")
          .code == 0);
  const Ran ran = bench.run({"audit", "5.tar"});
  CHECK(ran.code == 1);
  CHECK(ran.out.find("5.tar: 4.tar: ") != std::string::npos);
  CHECK(ran.out.find("1 file holds no dump") != std::string::npos);
}

TEST_CASE("a bomb of many gigabytes is not unpacked to its end", "[long]") {
  const Workbench bench;
  // A tar of one member of 7 GiB of zeros: the same packed mebibyte over and over, in a gzip
  // without its end.
  REQUIRE(bench
              .shell(R"(python3 -c '
import tarfile, zlib
member = tarfile.TarInfo("zeros"); member.size = 7 << 30
packer = zlib.compressobj(9, zlib.DEFLATED, 31)
flushed = lambda data: packer.compress(data) + packer.flush(zlib.Z_SYNC_FLUSH)
with open("bomb.tgz", "wb") as bomb:
    bomb.write(flushed(member.tobuf()) + flushed(bytes(1 << 20)))
    bomb.write(flushed(bytes(1 << 20)) * (7 << 10))
')")
              .code == 0);
  const Ran ran = bench.run({"audit", "bomb.tgz"});
  INFO(ran.out);
  CHECK(ran.code == 1);
  CHECK(ran.out.find("unpacks to more than 200 times its own size") != std::string::npos);
}

TEST_CASE("names from outside cannot steer the terminal") {
  const Workbench bench;
  const std::string name = steering + "\nx.bin";
  bench.put(name, at_64_bytes());
  std::filesystem::create_directory(bench.path("folder"));
  bench.put("folder/" + name, at_64_bytes());
  bench.put("folder/2031-05-14" + name, at_64_bytes());
  REQUIRE(bench.shell("tar -cf names.tar folder").code == 0);
  for (const Words& command : std::vector<Words>{{"show", name},
                                                 {"verify", name},
                                                 {"identify", name},
                                                 {"compare", name, name},
                                                 {"convert", name, "--to", "hex", "-o", name},
                                                 {"convert", name, "--to", "hex", "-o", name + "2"},
                                                 {"amend", name, "--set", steering, "-o", "out"},
                                                 {"amend", name, "--clock", steering, "-o", "out"},
                                                 {"deliver", name, "--as", steering, "-o", "out"},
                                                 {"explain", steering},
                                                 {"chips", steering},
                                                 {"plan", "--part", steering},
                                                 {"solve", name, name},
                                                 {"trace", "--step", steering + "=1:" + name},
                                                 {"trace", "--idle", name},
                                                 {"drift", name, "--at", steering},
                                                 {"show", name, "--layout", steering},
                                                 {"layouts", "print", steering},
                                                 {"sheet", name, "-o", "-", "--note", steering},
                                                 {"history", "folder"},
                                                 {"audit", "folder"},
                                                 {"audit", "names.tar"},
                                                 {"audit", "names.tar", "--json"},
                                                 {steering},
                                                 {"show", "--" + steering}}) {
    INFO(command[0].substr(0, 10) << " " << command.size());
    const Ran ran = bench.run(command);
    CHECK(ran.code >= 0);
    CHECK_FALSE((ran.out + ran.err).empty());
    CHECK_FALSE(steers_a_terminal(ran.out));
    CHECK_FALSE(steers_a_terminal(ran.err));
  }
}

TEST_CASE("text inside files cannot steer the terminal") {
  const Workbench bench;
  auto image = at_64_bytes();
  image[0x36] = 0x1B, image[0x37] = '[', image[0x38] = 0x07;
  bench.put("in.bin", image);
  REQUIRE(
      bench.run({"convert", "in.bin", "--to", "json", "--layout", "at", "-o", "dump.json"}).code ==
      0);
  std::string dump = bench.get("dump.json");
  dump.insert(dump.find('{') + 1, "\"note\": \"" + steering_json + "\",");
  bench.put("note.json", dump);
  bench.put("mine.json", R"({"layout": "mine", "title": "T)" + steering_json + R"(", "notes": [")" +
                             steering_json + R"("], "after_composing": [")" + steering_json +
                             R"("], "fields": [{"id": "a", "label": "L)" + steering_json +
                             R"(", "group": "G)" + steering_json + R"(", "source": "S)" +
                             steering_json + R"(", "note": "N)" + steering_json +
                             R"(", "at": "36-38", "text": {}}, {"id": "b", "label": "B",
                "group": "g", "source": "s", "at": "39", "choice": {"0": "C)" +
                             steering_json + R"("}}]})");
  bench.put("session.json", R"({"steps": [{"label": ")" + steering_json + R"(", "value": ")" +
                                steering_json + R"(", "dump": "in.bin"}, {"dump": "in.bin"}]})");
  bench.put("machine.json", R"({"layout": "at", "clock": "2031-05-14T09:30:00", "note": ")" +
                                steering_json + R"("})");
  bench.put("clock.log", "{\"shown\": \"" + steering_json + "\"}\n");
  bench.put("raw.log", steering + "\n");
  bench.put("text.txt", "00: 40 " + steering + "\n");
  bench.put("array.h", "/* " + steering + " */ 0x40, " + steering);
  for (const Words& command :
       std::vector<Words>{{"show", "note.json"},
                          {"verify", "note.json"},
                          {"convert", "note.json", "--to", "json", "-o", "-"},
                          {"convert", "note.json", "--to", "c-array", "-o", "-"},
                          {"convert", "note.json", "--to", "rows", "-o", "-"},
                          {"sheet", "note.json", "-o", "-"},
                          {"sheet", "in.bin", "--layout", "mine.json", "-o", "-"},
                          {"show", "in.bin", "--layout", "mine.json"},
                          {"show", "in.bin", "--layout", "mine.json", "--map"},
                          {"show", "in.bin", "--layout", "mine.json", "--json"},
                          {"verify", "in.bin", "--layout", "mine.json"},
                          {"amend", "in.bin", "--layout", "mine.json", "--set", "b=x", "-o", "out"},
                          {"layouts", "print", "./mine.json"},
                          {"layouts", "check", "mine.json"},
                          {"drives", "--capacity", "40M", "--layout", "mine.json"},
                          {"compose", "--ask", "--layout", "mine.json", "-o", "out"},
                          {"compose", "machine.json", "--to", "c-array", "-o", "-"},
                          {"compose", "machine.json", "--to", "json", "-o", "-"},
                          {"trace", "session.json"},
                          {"trace", "session.json", "--json"},
                          {"trace", "session.json", "-o", "-"},
                          {"drift", "--log", "clock.log"},
                          {"drift", "--log", "raw.log"},
                          {"show", "text.txt"},
                          {"show", "text.txt", "--form", "hex"},
                          {"show", "array.h", "--form", "c-array"}}) {
    std::string told;
    for (const std::string& word : command) told += word + " ";
    INFO(told);
    const Ran ran = bench.run(command, "?\n\n?\n");
    INFO(ran.out << ran.err);
    CHECK(ran.code >= 0);
    CHECK_FALSE((ran.out + ran.err).empty());
    CHECK_FALSE(steers_a_terminal(ran.out));
    CHECK_FALSE(steers_a_terminal(ran.err));
  }
}
