#include <catch2/catch.hpp>
#include <filesystem>

#include "base/files.h"
#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// The longest line of a text, in bytes.
std::size_t widest(const std::string& text) {
  std::size_t most = 0, length = 0;
  for (const char c : text) {
    length = c == '\n' ? 0 : length + 1;
    most = std::max(most, length);
  }
  return most;
}

const std::vector<std::string> command_names = {
    "show",    "verify",  "identify", "amend",      "seal",  "compose",
    "convert", "compare", "layouts",  "drives",     "chips", "plan",
    "drift",   "history", "audit",    "completion", "manual"};

}  // namespace

TEST_CASE("alone, the program says what to do in which situation, on one screen") {
  const Workbench bench;
  const Ran alone = bench.run(std::vector<std::string>{});
  CHECK(alone.code == 0);
  for (const std::string line :
       {"  I have a dump:\n      rtcmend show dump.bin ",
        "  I have nothing but codes on the screen:\n      rtcmend explain 161 163 ",
        "  I need an image from nothing:\n      rtcmend compose --ask --layout at -o new.bin ",
        "  I do not know the layout:\n      rtcmend identify dump.bin "})
    CHECK(alone.out.find(line) != std::string::npos);
  CHECK(widest(alone.out) <= 80);
  CHECK(std::count(alone.out.begin(), alone.out.end(), '\n') <= 24);
  CHECK(alone.out.find("--force") == std::string::npos);
}

TEST_CASE("help lists every command with its situation") {
  const Workbench bench;
  const Ran help = bench.run(std::vector<std::string>{"help"});
  CHECK(help.code == 0);
  CHECK(
      help.out.find("I have a dump and want to know what it says:\n      rtcmend show dump.bin") !=
      std::string::npos);
  CHECK(widest(help.out) <= 80);
  for (const std::string& name : command_names)
    CHECK(help.out.find("\n  " + name + " ") != std::string::npos);
  CHECK(bench.run(std::vector<std::string>{"--help"}).out == help.out);
  CHECK(bench.run(std::vector<std::string>{"-h"}).out == help.out);
}

TEST_CASE("every command explains itself with an example, on 80 columns") {
  const Workbench bench;
  for (const std::string& name : command_names) {
    INFO(name);
    const Ran ran = bench.run(std::vector<std::string>{name, "--help"});
    CHECK(ran.code == 0);
    CHECK(ran.out.find("For example:\n  rtcmend " + name) != std::string::npos);
    CHECK(widest(ran.out) <= 80);
    CHECK(bench.run(std::vector<std::string>{"help", name}).out == ran.out);
  }
}

TEST_CASE("the version is told, and the change log begins with it") {
  const Workbench bench;
  const std::string log = read_whole(std::string(RTCMEND_SOURCE_DIR) + "/CHANGELOG.md");
  CHECK(log.find("\n## " RTCMEND_VERSION) == log.find("\n## "));
  CHECK(bench.run(std::vector<std::string>{"--version"}).out == "rtcmend " RTCMEND_VERSION "\n");
}

TEST_CASE("an unknown command is refused with the nearest ones") {
  const Workbench bench;
  const Ran ran = bench.run({"shwo", "x.bin"});
  CHECK(ran.code == 2);
  CHECK(ran.err == "rtcmend: shwo: there is no such command\ntry: rtcmend show\n");
}

TEST_CASE("a file that is not there is refused with its neighbours, the folder in front") {
  const Workbench bench;
  std::filesystem::create_directory(bench.path("box"));
  bench.put("bramble.bin", at_64_bytes());
  bench.put("box/thistle.bin", at_64_bytes());
  CHECK(bench.run({"show", "brambel.bin"}).err ==
        "rtcmend: brambel.bin: No such file or directory\ntry: bramble.bin\n");
  CHECK(bench.run({"show", "box/thistel.bin"}).err ==
        "rtcmend: box/thistel.bin: No such file or directory\ntry: box/thistle.bin\n");
  CHECK(bench.run({"show", "quince.hex"}).err ==
        "rtcmend: quince.hex: No such file or directory\ntry: check the name and the folder\n");
}

TEST_CASE("wrong use names the option and ends with 2") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const auto message = [&](std::vector<std::string> words) {
    const Ran ran = bench.run(std::move(words));
    CHECK(ran.code == 2);
    CHECK(ran.out.empty());
    return ran.err;
  };
  CHECK(message({"show", "new.bin", "--jsno"})
            .find("rtcmend: --jsno: show has no such option\n"
                  "try: --json") == 0);
  CHECK(message({"show", "new.bin", "--form"}).find("rtcmend: --form: it takes one value") == 0);
  CHECK(message({"show", "new.bin", "--json=3"}).find("rtcmend: --json: it takes no value") == 0);
  CHECK(message({"show", "new.bin", "--form", "rwa"}).find("rtcmend: --form: ") == 0);
  CHECK(message({"show", "new.bin", "--color", "blue"})
            .find("rtcmend: --color: \"blue\" is not one of auto, always, never") == 0);
  CHECK(message({"show"}).find("rtcmend: DUMP: it is needed, and was not given\n"
                               "try: rtcmend show DUMP [options]\n") == 0);
  CHECK(message({"show", "a", "b"}).find("rtcmend: show: \"b\" is one word too many") == 0);
  CHECK(message({"seal", "new.bin"}).find("rtcmend: -o: it is needed") == 0);
  CHECK(message({"seal", "new.bin", "-o", "x", "--to", "zip"}).find("rtcmend: --to: ") == 0);
  CHECK(message({"amend", "new.bin", "-o", "x"}).find("rtcmend: amend: nothing is to be") == 0);
  CHECK(message({"--json", "show", "new.bin"}).find("rtcmend: --json: the command comes") == 0);
  CHECK(message({"show", "new.bin", "--layout", "at-46"}).find("at") != std::string::npos);
}

TEST_CASE("colour is for terminals, or when asked for, and only adds") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const Ran plain = bench.run({"show", "new.bin"});
  CHECK(plain.out.find('\x1b') == std::string::npos);
  const Ran coloured = bench.run({"show", "new.bin", "--color", "always"});
  std::string stripped;
  for (std::size_t i = 0; i < coloured.out.size(); ++i) {
    if (coloured.out[i] == '\x1b')
      i = coloured.out.find('m', i);
    else
      stripped += coloured.out[i];
  }
  CHECK(coloured.out != plain.out);
  CHECK(stripped == plain.out);
}

TEST_CASE("cards and maps keep to 80 columns, and no line ends in a blank") {
  const Workbench bench;
  bench.put("at.bin", at_64_bytes());
  bench.put("crc.bin", crc_64_bytes());
  for (const auto& words :
       std::vector<std::vector<std::string>>{{"show", "at.bin"},
                                             {"show", "at.bin", "--registers"},
                                             {"show", "at.bin", "--map"},
                                             {"show", "crc.bin", "--layout", "crc+slots-19"},
                                             {"verify", "at.bin", "--layout", "crc+slots-19"},
                                             {"identify", "at.bin"},
                                             {"layouts", "list"},
                                             {"layouts", "print", "crc+slots-19"}}) {
    INFO(words[0] << " " << words.back());
    const Ran ran = bench.run(words);
    CHECK(widest(ran.out) <= 80);
    CHECK(ran.out.find(" \n") == std::string::npos);
  }
}

TEST_CASE("layouts are listed, printed, checked, and printed as files that can be loaded") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const Ran list = bench.run({"layouts", "list"});
  for (const std::string id : {"at", "balance", "chip", "crc"})
    CHECK(("\n" + list.out).find("\n" + id + " ") != std::string::npos);
  CHECK(list.out.find("sum-40-7d") != std::string::npos);
  CHECK(bench.run({"layouts", "list", "--json"}).out.find("{\"classes\":[{\"id\":\"at\"") == 0);
  const Ran card = bench.run({"layouts", "print", "at"});
  CHECK(card.out.find("  10.7-4      floppy_a  First floppy drive\n"
                      "              none, 360K, 1.2M, 720K, 1.44M, 2.88M\n") != std::string::npos);
  bench.put("mine.json", bench.run({"layouts", "print", "at", "--json"}).out);
  const Ran check = bench.run({"layouts", "check", "mine.json"});
  CHECK(check.code == 0);
  CHECK(check.out.find("mine.json is a good layout: my-machine, for 64 bytes or more") == 0);
  CHECK(bench.run({"verify", "new.bin", "--layout", "mine.json"}).code == 0);
  CHECK(bench.run({"layouts", "print"}).code == 2);
  CHECK(bench.run({"layouts", "mend"}).code == 2);
}

TEST_CASE("a layout file is printed, as a card and as it stands") {
  const Workbench bench;
  const std::string text =
      R"({"layout": "mine", "title": "Mine", "fields": [{"id": "a",
      "label": "A field", "group": "g", "source": "s", "at": "10", "number": {}}]})";
  bench.put("mine.json", text);
  bench.put("mine", text);
  for (const std::string name : {"mine.json", "./mine"}) {
    CHECK(bench.run({"layouts", "print", name}).out.find("A field") != std::string::npos);
    CHECK(bench.run({"layouts", "print", name, "--json"}).out == text);
  }
  CHECK(bench.run({"layouts", "print", "mine", "--json"}).out == text);
  CHECK(bench.run({"layouts", "check", "mine.json", "--json"}).out ==
        "{\"layouts\":[{\"id\":\"mine\",\"title\":\"Mine\",\"size\":64,\"fields\":1,"
        "\"checks\":0}]}\n");
}

TEST_CASE("layouts names what it misses, and tables beside the layouts are none") {
  const Workbench bench;
  CHECK(bench.run({"layouts", "check"}).err ==
        "rtcmend: layouts check: it needs a name behind it\ntry: rtcmend layouts check FILE\n");
  CHECK(bench.run({"layouts", "print"}).err ==
        "rtcmend: layouts print: it needs a name behind it\ntry: rtcmend layouts print "
        "at+sum-40-7d\n");
  for (const auto& words : std::vector<std::vector<std::string>>{
           {"layouts", "print", "drive-types"}, {"layouts", "print", "drive-types", "--json"}}) {
    const Ran ran = bench.run(words);
    CHECK(ran.code == 2);
    CHECK(ran.out.empty());
    CHECK(complains(ran, "layout", "there is no built-in layout \"drive-types\""));
  }
}
