// What changes when a person looks on: colour, and raw bytes kept away.
#include <catch2/catch.hpp>

#include "support/pseudo_terminal.h"
#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// A bench whose runs write to a terminal.
struct Bench : Workbench {
  Bench() { put("new.bin", at_64_bytes()); }
  Ran run_there(std::vector<std::string> words, const char* no_color = "",
                const char* term = "xterm") const {
    Start start;
    start.arguments = std::move(words);
    start.output_to = terminal.name();
    start.environment = {{"NO_COLOR", no_color}, {"TERM", term}};
    return run(start);
  }
  PseudoTerminal terminal;
};

}  // namespace

TEST_CASE("a terminal gets colour, unless NO_COLOR or --color says otherwise") {
  const Bench bench;
  CHECK(bench.run_there({"verify", "new.bin"}).code == 0);
  CHECK(bench.terminal.written().find("\x1b[") != std::string::npos);
  Start unset;
  unset.program = "/usr/bin/env";
  unset.arguments = {"-u", "NO_COLOR", RTCMEND_PROGRAM, "verify", bench.path("new.bin")};
  unset.output_to = bench.terminal.name();
  unset.environment = {{"TERM", "xterm"}};
  CHECK(run_program(unset).code == 0);
  CHECK(bench.terminal.written().find("\x1b[") != std::string::npos);
  CHECK(bench.run_there({"verify", "new.bin"}, "1").code == 0);
  const std::string plain = bench.terminal.written();
  CHECK(plain.find("new.bin") != std::string::npos);
  CHECK(plain.find('\x1b') == std::string::npos);
  CHECK(bench.run_there({"verify", "new.bin", "--color", "never"}).code == 0);
  CHECK(bench.terminal.written() == plain);
  CHECK(bench.run_there({"verify", "new.bin"}, "", "dumb").code == 0);
  CHECK(bench.terminal.written() == plain);
  CHECK(bench.run_there({"verify", "new.bin", "--color", "always"}, "1").code == 0);
  CHECK(bench.terminal.written().find("\x1b[") != std::string::npos);
}

TEST_CASE("raw bytes are kept off a terminal, text is not") {
  const Bench bench;
  const Ran refused = bench.run_there({"convert", "new.bin", "--to", "raw", "-o", "-"});
  CHECK(refused.code == 2);
  CHECK(complains(refused, "-o", "raw bytes would only upset the terminal"));
  CHECK(bench.terminal.written().empty());
  CHECK(bench.run_there({"convert", "new.bin", "--to", "hex", "-o", "-"}).code == 0);
  CHECK(bench.terminal.written().starts_with("00: 00 00 30 00 09"));
}
