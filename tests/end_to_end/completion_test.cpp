#include <catch2/catch.hpp>

#include "base/text.h"
#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// The candidates without their help; ":files" stays.
std::vector<std::string> candidates(const Workbench& bench, std::vector<std::string> words) {
  words.insert(words.begin(), "__complete");
  const Ran ran = bench.run(std::move(words));
  CHECK(ran.code == 0);
  CHECK(ran.err.empty());
  std::vector<std::string> found;
  for (const std::string_view line : lines(ran.out))
    if (!line.empty()) found.emplace_back(line.substr(0, line.find('\t')));
  return found;
}

using Words = std::vector<std::string>;

/// What a shell offers, one a line.
Words offered(const Workbench& bench, const std::string& shell, const std::string& script) {
  Start start;
  start.program = "/usr/bin/env";
  start.arguments = {shell, "-c", script};
  start.folder = bench.path("");
  start.environment = {
      {"PATH", std::string(RTCMEND_PROGRAM).substr(0, std::string(RTCMEND_PROGRAM).rfind('/')) +
                   ":/usr/local/bin:/usr/bin:/bin"},
      {"HOME", bench.path("")}};
  const Ran ran = run_program(start);
  INFO(ran.err);
  CHECK(ran.err.empty());
  Words found;
  for (const std::string_view line : lines(ran.out))
    if (!line.empty()) found.emplace_back(line);
  return found;
}

bool holds(const Words& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

}  // namespace

TEST_CASE("commands, options, layouts, forms and parts are completed") {
  const Workbench bench;
  CHECK(candidates(bench, {"com"}) == Words{"compose", "compare", "completion"});
  CHECK(candidates(bench, {"show", "--js"}) == Words{"--json"});
  CHECK(candidates(bench, {"show", "x", "--layout", "at+sum-41"}) ==
        Words{"at+sum-41-7b", "at+sum-41-7d", ":files"});
  CHECK(candidates(bench, {"show", "x", "--form", "i"}) == Words{"intel-hex"});
  CHECK(candidates(bench, {"plan", "--part", "DS12C"}) ==
        Words{"DS12C887", "DS12C887A", "DS12CR887"});
  CHECK(candidates(bench, {"plan", "--diode", ""}) == Words{"none", "silicon", "schottky"});
  CHECK(candidates(bench, {"show", "--color=al"}) == Words{"--color=always"});
  CHECK(candidates(bench, {"layouts", "p"}) == Words{"print"});
  CHECK(candidates(bench, {"completion", ""}) == Words{"bash", "zsh", "fish"});
  CHECK(candidates(bench, {"show", ""}) == Words{":files"});
  CHECK(candidates(bench, {"nonsense", ""}).empty());
}

TEST_CASE(
    "the first word is a command, the one behind help as well, and nothing stands behind that") {
  const Workbench bench;
  const Words first = candidates(bench, {""});
  REQUIRE(first.size() == 28);
  CHECK(first[0] == "show");
  CHECK(first[26] == "help");
  CHECK(first[27] == "--version");
  CHECK(candidates(bench, {}) == first);
  CHECK(candidates(bench, {"help", "com"}) == Words{"compose", "compare", "completion"});
  CHECK(candidates(bench, {"help", "h"}) == Words{"history"});
  CHECK(candidates(bench, {"help", "-"}).empty());
  CHECK(candidates(bench, {"help", "show", "s"}).empty());
}

TEST_CASE("values that are one of a few are completed, others are left to their writer") {
  const Workbench bench;
  CHECK(candidates(bench, {"plan", "--cell", "20"}) == Words{"2032", "2025", "2016"});
  CHECK(candidates(bench, {"explain", "178"}) == Words{"1780", "1781", "1782"});
  CHECK(candidates(bench, {"deliver", "x", "--as", ""}) == Words{"boot-floppy", "dos-program",
                                                                 "debugger-script", "basic-listing",
                                                                 "keyboard-program"});
  CHECK(candidates(bench, {"capture", "--as", ""}) == Words{"boot-floppy", "dos-program",
                                                            "debugger-script", "basic-listing",
                                                            "keyboard-program"});
  CHECK(candidates(bench, {"deliver", "x", "--disk", "7"}) == Words{"720K"});
  CHECK(candidates(bench, {"deliver", "x", "--clock", ""}) == Words{"keep", "image", "ask"});
  CHECK(candidates(bench, {"convert", "x", "--undo", ""}) ==
        Words{"shift=", "nibbles", "bit-order"});
  CHECK(candidates(bench, {"solve", "x", "--kind", "s"}) == Words{"sum"});
  CHECK(candidates(bench, {"solve", "x", "--width", "1"}) == Words{"16"});
  CHECK(candidates(bench, {"capture", "--size", ""}) == Words{"64", "128"});
  CHECK(candidates(bench, {"amend", "x", "--clock", ""}) == Words{"now"});
  CHECK(candidates(bench, {"drift", "x", "--at", "n"}) == Words{"now"});
  CHECK(candidates(bench, {"compare", "x", "y", "--after-power-off", ""}).empty());
  CHECK(candidates(bench, {"sheet", "x", "--title", ""}).empty());
  CHECK(candidates(bench, {"sheet", "x", "-o", ""}) == Words{":files"});
  CHECK(candidates(bench, {"history", ""}) == Words{":files"});
}

TEST_CASE("options and their values are not counted among the words") {
  const Workbench bench;
  CHECK(candidates(bench, {"layouts", "--json", "p"}) == Words{"print"});
  CHECK(candidates(bench, {"show", "x", "--form"}) == Words{"--form"});
  CHECK(candidates(bench, {"seal", "x", "--out"}) == Words{"--output"});
  CHECK(candidates(bench, {"layouts", "--json", "--color", "never", "p"}) == Words{"print"});
  CHECK(candidates(bench, {"layouts", "--json", "print", "at+sum-42"}) ==
        Words{"at+sum-42-79", ":files"});
  CHECK(candidates(bench, {"show", "-"}) == Words{":files"});
  CHECK(candidates(bench, {"plan", "x"}).empty());
  CHECK(candidates(bench, {"show", "x", "--json=y"}).empty());
  CHECK(candidates(bench, {"show", "x", "--nonsense=y"}).empty());
  CHECK(candidates(bench, {"show", "x", "--nonsense", ""}) == Words{":files"});
}

TEST_CASE("behind --set stand the fields of the chosen layout, and their values") {
  const Workbench bench;
  CHECK(candidates(bench, {"amend", "x.bin", "--layout", "at", "--set", "floppy_"}) ==
        Words{"floppy_a=", "floppy_b=", "floppy_count=", "floppy_fitted="});
  CHECK(candidates(bench, {"amend", "x.bin", "--layout", "at", "--set", "floppy_a=1"}) ==
        Words{"floppy_a=1.2M", "floppy_a=1.44M"});
  CHECK(candidates(bench, {"amend", "x.bin", "--layout=at", "--set=floppy_a=n"}) ==
        Words{"--set=floppy_a=none"});
  // Without --layout, the dump's own.
  CHECK(candidates(bench, {"amend", "x.bin", "--set", "floppy_a"}).empty());
  bench.put("x.bin", at_64_bytes());
  CHECK(candidates(bench, {"amend", "x.bin", "--set", "floppy_a"}) == Words{"floppy_a="});
  CHECK(candidates(bench, {"amend", "--form", "raw", "x.bin", "--set", "floppy_a"}) ==
        Words{"floppy_a="});
  CHECK(candidates(bench, {"amend", "--form=hex", "x.bin", "--set", "floppy_a"}).empty());
  CHECK(candidates(bench, {"amend", "-", "--set", "floppy_a"}).empty());
  CHECK(candidates(bench, {"amend", "--set", "floppy_a"}).empty());
}

TEST_CASE("values are listed as far as they can be, for fields that can be set") {
  const Workbench bench;
  const auto values = [&](const char* layout, const char* typed) {
    return candidates(bench, {"amend", "x", "--layout", layout, "--set", typed});
  };
  CHECK(values("at", "coprocessor=") == Words{"coprocessor=yes", "coprocessor=no"});
  CHECK(values("at", "disk_0_type=").empty());
  CHECK(values("crc+slots-19", "password").empty());
  CHECK(values("balance", "last_used").empty());
}

TEST_CASE("bash completes with the script that the program prints") {
  const Workbench bench;
  const auto bash = [&](const char* words, const char* count) {
    return offered(bench, "bash",
                   std::string("source <(rtcmend completion bash); COMP_WORDS=(") + words +
                       "); COMP_CWORD=" + count +
                       "; compopt() { :; }; _rtcmend; printf '%s\\n' \"${COMPREPLY[@]}\"");
  };
  CHECK(bash("rtcmend amen", "1") == Words{"amend"});
  CHECK(bash("rtcmend amend x --layout at --set floppy_a", "6") == Words{"floppy_a="});
  CHECK(bash("rtcmend amend x --layout at --set floppy_a = 1", "8") == Words{"1.2M", "1.44M"});
  bench.put("dump of it.bin", "x");
  CHECK(bash("rtcmend show d", "2") == Words{"dump of it.bin"});
}

TEST_CASE("a word from a layout file is never run by the shell that completes it") {
  const Workbench bench;
  bench.put("odd.json", R"json({"layout": "odd", "title": "Odd", "fields": [
    {"id": "a", "label": "A", "group": "g", "at": "10", "bits": [1, 0],
     "choice": {"0": "$(touch ran)", "1": "two words"}, "source": "from memory"}]})json");
  const auto line = [&](const std::string& typed) {
    // What readline would put into the line, run as the shell then runs it.
    return offered(bench, "bash",
                   "source <(rtcmend completion bash); COMP_WORDS=(rtcmend amend x --layout "
                   "odd.json --set a = '" +
                       typed +
                       "'); COMP_CWORD=8; compopt() { :; }; _rtcmend; "
                       "eval \"printf '%s\\n' ${COMPREPLY[0]}\"");
  };
  CHECK(line("$") == Words{"$(touch ran)"});
  CHECK(line("t") == Words{"two words"});
  CHECK_FALSE(bench.has("ran"));
}

TEST_CASE("completing waits for no pipe") {
  const Workbench bench;
  CHECK(bench.shell("mkfifo pipe; timeout 10 $0 __complete amend pipe --set floppy_").code == 0);
  CHECK(bench.shell("timeout 10 $0 __complete amend x --layout ./pipe --set floppy_").code == 0);
}

TEST_CASE("fish completes with the script that the program prints") {
  const Workbench bench;
  const Words found = offered(bench, "fish",
                              "rtcmend completion fish | source; complete -C 'rtcmend amend x "
                              "--layout at --set floppy_'");
  REQUIRE(found.size() >= 4);
  CHECK(found[0].starts_with("floppy_a="));
  CHECK(holds(offered(bench, "fish", "rtcmend completion fish | source; complete -C 'rtcmend sho'"),
              "show\twhat a dump says: clock, registers, fields, checks, findings"));
}

TEST_CASE("zsh completes with the script that the program prints") {
  const Workbench bench;
  // compadd is replaced by what prints its last list, for there is no line editor here.
  const Words found =
      offered(bench, "zsh",
              "compdef() { : }; _files() { : }; compadd() { print -rl -- ${(P)@[-1]} };"
              "source <(rtcmend completion zsh); words=(rtcmend amend x --layout at --set floppy_);"
              "CURRENT=7; _rtcmend");
  CHECK(found == Words{"floppy_a=", "floppy_b=", "floppy_count=", "floppy_fitted="});
}

TEST_CASE("a shell without a script is refused with the nearest") {
  const Workbench bench;
  const Ran ran = bench.run({"completion", "fihs"});
  CHECK(ran.code == 2);
  CHECK(ran.err == "rtcmend: SHELL: there is no script for \"fihs\"\ntry: fish\n");
  CHECK(bench.run({"completion", "powder"}).err ==
        "rtcmend: SHELL: there is no script for \"powder\"\ntry: bash, zsh or fish\n");
}
