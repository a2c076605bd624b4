#include "cli/ask.h"

#include <catch2/catch.hpp>
#include <sstream>

#include "base/error.h"
#include "layout/library.h"

using namespace rtcmend;

namespace {

struct Asked {
  explicit Asked(const std::string& answers) {
    std::istringstream in(answers);
    std::ostringstream out;
    description = ask(built_in_layout("at"), in, out);
    questions = out.str();
  }
  Description description;
  std::string questions;
};

}  // namespace

TEST_CASE("an answer becomes a setting, and Enter leaves the default alone") {
  const Asked asked("1.44M\n\n.\n");
  REQUIRE(asked.description.set.size() == 1);
  CHECK(asked.description.set[0].first == "floppy_a");
  CHECK(asked.description.set[0].second == Value(std::string("1.44M")));
  CHECK(asked.description.layout == "at");
  CHECK(asked.description.clock_now);
}

TEST_CASE("each question names the field, its legal answers and its default") {
  const Asked asked("");
  CHECK(asked.questions.find("\nFirst floppy drive (floppy_a)\n"
                             "  none, 360K, 1.2M, 720K, 1.44M, 2.88M\n"
                             "  [none] > ") != std::string::npos);
}

TEST_CASE("what follows from other answers, and what the firmware writes, is not asked") {
  const Asked asked(std::string(100, '\n'));
  for (const std::string id : {"floppy_count", "floppy_fitted", "extended_memory_found_kib",
                               "diag_check_wrong", "shutdown_reason", "century"})
    CHECK(asked.questions.find("(" + id + ")") == std::string::npos);
  CHECK(asked.questions.find("(disk_0_type)") != std::string::npos);
  CHECK(asked.questions.find("\nClock\n") != std::string::npos);
}

TEST_CASE("a wrong answer is explained and asked again") {
  const Asked asked("floppy\n360K\n.\n");
  CHECK(asked.questions.find("  No: ") != std::string::npos);
  REQUIRE(asked.description.set.size() == 1);
  CHECK(asked.description.set[0].second == Value(std::string("360K")));
}

TEST_CASE("a question mark explains, and the question comes again") {
  const Asked asked("?\n.\n");
  CHECK(asked.questions.find("  Field floppy_a, at 10h. (RBIL61 C0007, C0008)\n") !=
        std::string::npos);
  CHECK(asked.description.set.empty());
}

TEST_CASE("the clock comes last, and takes now or a time") {
  // The questions before it: two floppies, three of the display and keyboard, the coprocessor, two
  // of the memory, two disks.
  const std::string ten_defaults(10, '\n');
  CHECK(Asked(ten_defaults + "now\n")
            .questions.ends_with(
                "\nClock\n  now, or a time such as 2031-05-14T09:30:00\n  [now] > "));
  const Asked asked(ten_defaults + "noon\n2031-05-14T09:30:00\n");
  CHECK(asked.description.clock == DateTime{2031, 5, 14, 9, 30, 0});
  CHECK_FALSE(asked.description.clock_now);
}

TEST_CASE("answers without an end are refused") {
  std::string wrong;
  for (int i = 0; i < 30000; ++i) wrong += "no\n";
  for (const std::string& answers : {std::string(100000, 'x'), wrong}) {
    std::istringstream in(answers);
    std::ostringstream out;
    CHECK_THROWS_AS(ask(built_in_layout("at"), in, out), Error);
  }
}

TEST_CASE("what a disk is by hand is asked only when its type says that it is by hand") {
  const Layout layout = built_in_layout("at+disks-26");
  const auto questions = [&](const std::string& answers) {
    std::istringstream in(answers);
    std::ostringstream out;
    ask(layout, in, out);
    return out.str();
  };
  CHECK(questions(std::string(40, '\n')).find("(disk_0_heads)") == std::string::npos);
  // Eight questions stand before the first disk's type, and 49 is this firmware's by hand (RBIL61
  // CMOS 26h-2Dh).
  const std::string by_hand = questions(std::string(8, '\n') + "49\n" + std::string(40, '\n'));
  CHECK(by_hand.find("(disk_0_heads)") != std::string::npos);
  CHECK(by_hand.find("(disk_1_heads)") == std::string::npos);
}

TEST_CASE("bytes without a plain answer, passwords and what is only shown are not asked") {
  const auto questions = [](const char* id) {
    std::istringstream in(std::string(100, '\n'));
    std::ostringstream out;
    ask(built_in_layout(id), in, out);
    return out.str();
  };
  const std::string balance = questions("balance");
  CHECK(balance.find("(mouse_scale_x)") != std::string::npos);
  for (const char* id : {"(last_used)", "(enter_key)"})
    CHECK(balance.find(id) == std::string::npos);
  CHECK(questions("crc+slots-19").find("password") == std::string::npos);
}
