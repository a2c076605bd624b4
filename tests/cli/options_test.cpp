#include "cli/options.h"

#include <catch2/catch.hpp>

#include "base/error.h"

using namespace rtcmend;

namespace {

/// A command with an option of every kind.
struct Sample {
  Sample() {
    options.word(word, "DUMP", "a word");
    options.optional_word(second, "OTHER", "another word");
    options.value(text, "-t,--text", "TEXT", "a text");
    options.value(whole, "--whole", "N", "a whole number");
    options.value(broken, "--broken", "X", "a number");
    options.values(many, "--many", "ONE", "may be given often");
    options.choice(tone, "--tone", {"low", "high"}, "one of two");
    options.flag(loud, "--loud", "without a value");
    options.example("rtcmend sample dump.bin");
  }
  Options options{"sample", "shows every kind"};
  std::string word, second, text, tone = "low";
  std::vector<std::string> many;
  int whole = 7;
  double broken = 0.5;
  bool loud = false;
};

/// "WHERE: WHAT" of the refusal, or nothing.
std::string refusal(std::vector<std::string> arguments) {
  Sample sample;
  try {
    sample.options.parse(std::move(arguments));
  } catch (const Error& error) {
    return error.what();
  }
  return {};
}

}  // namespace

TEST_CASE("words and options fill their variables in, in any order") {
  Sample sample;
  CHECK(sample.options.parse({"--many", "a", "dump.bin", "--many", "b", "-t", "x=y", "--whole",
                              "12", "--broken", "2.5", "--loud", "--tone=high"}));
  CHECK(sample.word == "dump.bin");
  CHECK(sample.second.empty());
  CHECK(sample.many == std::vector<std::string>{"a", "b"});
  CHECK(sample.text == "x=y");
  CHECK(sample.whole == 12);
  CHECK(sample.broken == 2.5);
  CHECK(sample.loud);
  CHECK(sample.tone == "high");
}

TEST_CASE("what is not given keeps its value, and a dash is a word") {
  Sample sample;
  CHECK(sample.options.parse({"-"}));
  CHECK(sample.word == "-");
  CHECK(sample.whole == 7);
  CHECK(sample.tone == "low");
}

TEST_CASE("a refusal names the option") {
  CHECK(refusal({}) == "DUMP: it is needed, and was not given");
  CHECK(refusal({"a", "b", "c"}) == "sample: \"c\" is one word too many");
  CHECK(refusal({"a", "--tetx", "b"}) == "--tetx: sample has no such option");
  CHECK(refusal({"a", "--tone", "mid"}) == "--tone: \"mid\" is not one of low, high");
  CHECK(refusal({"a", "--text"}) == "--text: it takes one value, no more and no less");
  CHECK(refusal({"a", "--loud=2"}) == "--loud: it takes no value");
  CHECK(refusal({"a", "--whole", "x"}) == "--whole: it takes a number");
  CHECK(refusal({"a", "--broken", "x"}) == "--broken: it takes a number");
  CHECK(refusal({"a", "-t", "x", "--text", "y"}) ==
        "--text: it takes one value, no more and no less");
  CHECK(refusal({"a", "-t"}) == "--text: it takes one value, no more and no less");
  CHECK(refusal({"a", "--tone=\"l o w\""}) == "--tone: \"\"l o w\"\" is not one of low, high");
}

TEST_CASE("a refusal says what to try: the nearest, or where all of them stand") {
  const auto remedy = [](std::vector<std::string> arguments) {
    try {
      Sample().options.parse(std::move(arguments));
    } catch (const Error& error) {
      return error.remedy();
    }
    return std::string("accepted");
  };
  CHECK(remedy({"a", "--tetx=b"}) == "--text");
  CHECK(remedy({"a", "--nonsense"}) == "rtcmend sample --help");
  CHECK(remedy({"a", "--tone", "hihg"}) == "high");
  CHECK(remedy({"a", "--tone", "middle"}) == "rtcmend sample --help");
  CHECK(remedy({}) == "rtcmend sample DUMP [OTHER] [options]");
}

TEST_CASE("without an example, help ends with the options") {
  bool loud = false;
  Options options("plain", "has one option");
  options.flag(loud, "--loud", "without a value");
  CHECK(options.help() ==
        "rtcmend plain: has one option\n\n  rtcmend plain [options]\n\n"
        "  --loud                without a value\n");
}

TEST_CASE("help lists the words, the options and the example") {
  Sample sample;
  CHECK_FALSE(sample.options.parse({"--help"}));
  CHECK(sample.options.help() == R"(rtcmend sample: shows every kind

  rtcmend sample DUMP [OTHER] [options]

  DUMP                  a word
  OTHER                 another word
  -t, --text TEXT       a text
  --whole N             a whole number
  --broken X            a number
  --many ONE            may be given often
  --tone low|high       one of two
  --loud                without a value

For example:
  rtcmend sample dump.bin
)");
}
