#include "cli/ask.h"

#include <catch2/catch.hpp>
#include <concepts>
#include <sstream>

#include "base/error.h"
#include "layout/library.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

/// What comes of a conversation.
struct Asked {
  explicit Asked(const std::string& answers, const std::string& layout = "at")
      : Asked(answers, [&](std::istream& in, std::ostream& out) {
          return ask(built_in_layout(layout), in, out);
        }) {}
  template <typename Ask>
  requires std::invocable<Ask, std::istream&, std::ostream&> Asked(const std::string& answers,
                                                                   Ask ask_about) {
    std::istringstream in(answers);
    std::ostringstream out;
    try {
      description = ask_about(in, out);
    } catch (const Error& error) {
      refusal = error.message();
    }
    questions = out.str();
  }
  Description description;
  std::string questions;
  std::string refusal;
};

/// Changes to a sound AT-class image whose first floppy drive is 1.44M (10h holds 40h).
Asked changed(const std::string& answers) {
  return {answers, [](std::istream& in, std::ostream& out) {
            return ask_changes(Image(at_64_bytes()), built_in_layout("at"), in, out);
          }};
}

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

TEST_CASE("answers that end before the last question are refused") {
  CHECK(Asked("").refusal == "they ended before the last question, so nothing is written");
  CHECK(Asked("1.44M").refusal == "they ended before the last question, so nothing is written");
  // Ten questions and the clock, and then nobody who consents.
  CHECK(Asked(std::string(11, '\n')).refusal ==
        "they ended before the last question, so nothing is written");
}

TEST_CASE("before the end it shows what was settled, and asks for consent") {
  const std::string all_defaults(11, '\n');
  const Asked asked("1.44M\n" + std::string(10, '\n') + "y\n");
  CHECK(asked.refusal.empty());
  CHECK(asked.questions.find("\nSettled\n  First floppy drive: 1.44M\n") != std::string::npos);
  CHECK(asked.questions.find("  Base memory: 640 KiB\n") != std::string::npos);
  CHECK(asked.questions.ends_with("  Clock: now\n\nWrite it? yes or no\n  [yes] > "));
  CHECK(Asked(all_defaults + "\n").refusal.empty());
  CHECK(Asked(all_defaults + "No\n").refusal == "they were taken back, so nothing is written");
  CHECK(Asked(all_defaults + "perhaps\nyes\n").questions.find("  No: yes or no.\n") !=
        std::string::npos);
}

TEST_CASE("an arrow goes back one question, and takes its answer back") {
  const Asked asked("1.44M\n720K\n<\n<\n360K\n\n.\n");
  REQUIRE(asked.description.set.size() == 1);
  CHECK(asked.description.set[0].second == Value("360K"));
  CHECK(Asked("<\n.\n").questions.find("  This is the first question.\n") != std::string::npos);
  // From the clock back to the tenth question, the second disk.
  const Asked late(std::string(10, '\n') + "<\n3\n.\n");
  REQUIRE(late.description.set.size() == 1);
  CHECK(late.description.set[0].first == "disk_1_type");
}

TEST_CASE("a question mark says how to find it out at the machine") {
  CHECK(Asked("?\n.\n").questions.find("  See the drive: a wide slot is 360K or 1.2M") !=
        std::string::npos);
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
  CHECK(Asked(ten_defaults + "now\n\n")
            .questions.find(
                "\nClock\n  now, or a time such as 2031-05-14T09:30:00\n  [now] > \nSettled\n") !=
        std::string::npos);
  const Asked asked(ten_defaults + "noon\n2031-05-14T09:30:00\n\n");
  CHECK(asked.description.clock == DateTime{2031, 5, 14, 9, 30, 0});
  CHECK_FALSE(asked.description.clock_now);
}

TEST_CASE("answers without an end are refused") {
  std::string wrong;
  for (int i = 0; i < 30000; ++i) wrong += "no\n";
  for (const std::string& answers : {std::string(100000, 'x'), wrong}) {
    CHECK(Asked(answers).refusal == "they are longer than 65536 bytes in all");
  }
}

TEST_CASE("what a disk is by hand is asked only when its type says that it is by hand") {
  const auto questions = [](const std::string& answers) {
    return Asked(answers, "at+disks-26").questions;
  };
  CHECK(questions(std::string(40, '\n')).find("(disk_0_heads)") == std::string::npos);
  // Eight questions stand before the first disk's type, and 49 is this firmware's by hand (RBIL61
  // CMOS 26h-2Dh).
  const std::string by_hand = questions(std::string(8, '\n') + "49\n" + std::string(40, '\n'));
  CHECK(by_hand.find("(disk_0_heads)") != std::string::npos);
  CHECK(by_hand.find("(disk_1_heads)") == std::string::npos);
}

TEST_CASE("bytes without a plain answer, passwords and what is only shown are not asked") {
  const auto questions = [](const char* id) { return Asked(std::string(100, '\n'), id).questions; };
  const std::string balance = questions("balance");
  CHECK(balance.find("(mouse_scale_x)") != std::string::npos);
  for (const char* id : {"(last_used)", "(enter_key)"})
    CHECK(balance.find(id) == std::string::npos);
  CHECK(questions("crc+slots-19").find("password") == std::string::npos);
}

TEST_CASE("asked about a dump, what is in brackets is what it holds, and only changes come out") {
  const Asked told = changed("\n1.2M\n.\n");
  CHECK(told.refusal.empty());
  CHECK(told.questions.find("none, 360K, 1.2M, 720K, 1.44M, 2.88M\n  [1.44M] > ") !=
        std::string::npos);
  REQUIRE(told.description.set.size() == 1);
  CHECK(told.description.set[0].first == "floppy_b");
  CHECK_FALSE(told.description.clock);
  CHECK_FALSE(told.description.clock_now);
}

TEST_CASE("asked about a dump, the clock stays as it is unless a time is given") {
  const std::string every_field(10, '\n');
  CHECK(changed(every_field + "\ny\n").questions.find("  Clock: as it is\n") != std::string::npos);
  CHECK(changed(every_field + "now\ny\n").description.clock_now);
  const Asked told = changed(every_field + "2031-05-14T09:30:00\ny\n");
  REQUIRE(told.description.clock);
  CHECK(to_iso(*told.description.clock) == "2031-05-14T09:30:00");
}
