#include "cli/way_choice.h"

#include <catch2/catch.hpp>
#include <sstream>

#include "base/error.h"

using namespace rtcmend;

namespace {

/// The open ways, the best first.
std::vector<std::string> open_with(std::string_view list) {
  std::vector<std::string> names;
  for (const Opening& one : openings(haves_named(list)))
    if (one.open) names.emplace_back(name(one.way));
  return names;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("what is there opens the ways that need it, those with least typing first") {
  CHECK(open_with("") == Names{});
  CHECK(open_with("floppy") == Names{"boot-floppy"});
  CHECK(open_with("dos") == Names{});
  CHECK(open_with("dos,serial") == Names{"dos-program"});
  CHECK(open_with("dos, writable") == Names{"keyboard-program"});
  CHECK(open_with("dos,debugger") == Names{"debugger-script"});
  CHECK(open_with("basic") == Names{"basic-listing"});
  CHECK(
      open_with("floppy,dos,writable,debugger,basic") ==
      Names{"boot-floppy", "dos-program", "debugger-script", "keyboard-program", "basic-listing"});
}

TEST_CASE("an unknown word for what is there is refused with the known ones") {
  CHECK_THROWS_AS(haves_named("dos,flopy"), Error);
}

TEST_CASE("the questions are answered by yes or no, and the end of the input is no") {
  std::istringstream answers("n\ny\nYes\n");
  std::ostringstream questions;
  CHECK(ask_what_is_open(answers, questions) == Means{{Have::dos, Have::writable_disk}, {}});
  CHECK(questions.str().find("Does it come to a DOS prompt? [n] ") != std::string::npos);
}

TEST_CASE("of a floppy drive it is asked what it reads, until the answer is one that is known") {
  std::istringstream answers("y\n3.5\n 720k\nn\n");
  std::ostringstream questions;
  const Means means = ask_what_is_open(answers, questions);
  CHECK(means == Means{{Have::floppy}, DiskFormat::k720});
  CHECK(questions.str().find("3.5 is none of them.\n") != std::string::npos);
  CHECK(openings_text(means, "new.bin")
            .find("rtcmend deliver new.bin --as boot-floppy --disk 720K -o OUT\n") !=
        std::string::npos);
  std::istringstream silence("y\n\n");
  CHECK(ask_what_is_open(silence, questions) == Means{{Have::floppy}, {}});
}

TEST_CASE("the answer names what is open and best, what each cannot do, and what the others need") {
  const std::string text = openings_text({{Have::dos, Have::writable_disk}, {}}, "new.bin");
  CHECK(text.find("Open\n  keyboard-program, the best\n     Cannot: ask for the time") == 0);
  CHECK(text.find("rtcmend deliver new.bin --as keyboard-program -o OUT\n") != std::string::npos);
  CHECK(text.find("Closed\n  boot-floppy      needs a floppy drive") != std::string::npos);
  CHECK(openings_text({{}, {}}, "new.bin").find("none of them") != std::string::npos);
  const std::string out = openings_text({{Have::chip_out}, {}}, "new.bin");
  CHECK(out.find("First switch off, unplug") != std::string::npos);
  CHECK(out.find("potted part alone") != std::string::npos);
}
