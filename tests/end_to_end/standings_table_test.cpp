// Some sixty invented images: their three standings, what verify ends with, which codes they would
// raise, and who writes them. And the same standing on every face.
#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "end_to_end/standings.h"
#include "end_to_end/workbench.h"
#include "judge/standing.h"
#include "page/image_text.h"
#include "page/workbench.h"
#include "render/json.h"
#include "support/image_listing.h"
#include "support/sound_images.h"

using namespace rtcmend;
using namespace rtcmend::test;
using Bench = rtcmend::test::Workbench;

namespace {

std::string standing_in(const Json& json) {
  const Json& standing = json["standing"];
  return standing["dump"].get<std::string>() + " " + standing["settings"].get<std::string>() + " " +
         standing["clock"].get<std::string>();
}

/// A row on the bench.
class Case {
 public:
  explicit Case(const StandingRow& row) : row_(row) { bench_.put("dump.txt", listing(row.image)); }

  Ran run(std::vector<std::string> words, const std::vector<std::string>& more = {}) const {
    words.insert(words.end(), {"dump.txt", "--layout", row_.layout});
    words.insert(words.end(), more.begin(), more.end());
    return bench_.run(words);
  }
  Json json(const char* command) const { return Json::parse(run({command}, {"--json"}).out); }

  std::string forecast() const {
    std::string codes;
    const Json foretold = json("forecast");
    for (const Json& code : foretold["codes"])
      codes += (codes.empty() ? "" : " ") + code["code"].get<std::string>();
    return codes;
  }

  std::string writers() const {
    std::string who;
    const auto try_one = [&](char letter, std::vector<std::string> words,
                             const std::vector<std::string>& more) {
      const Ran ran = run(std::move(words), more);
      CHECK((ran.code <= 1) == bench_.has(std::string("out-") + letter));
      if (ran.code <= 1) who += letter;
    };
    try_one('k', {"deliver"}, {"--as", "dos-program", "--clock", "keep", "-o", "out-k"});
    const Ran asks = run({"deliver"}, {"--as", "dos-program", "--clock", "ask", "-o", "out-a"});
    CHECK((asks.code <= 1) == (who == "k"));  // the image's own time is left out of both
    try_one('i', {"deliver"}, {"--as", "dos-program", "--clock", "image", "-o", "out-i"});
    try_one('c', {"amend"}, {"--clock", "2031-06-01T12:00:00", "-o", "out-c"});
    return who;
  }

  const Bench& bench() const { return bench_; }

 private:
  const StandingRow& row_;
  Bench bench_;
};

/// A dump is worth keeping by the first two of its standings.
std::string worth_of(const StandingRow& row) {
  const std::string_view standing = row.standing;
  if (standing.starts_with("misread") || standing.find("broken") != std::string_view::npos)
    return "broken";
  return standing.find("unproven") != std::string_view::npos ? "unproven" : "proven";
}

std::size_t times(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++count;
  return count;
}

/// Text as it was before it was folded.
std::string unfolded(std::string text) {
  std::string plain;
  for (const char c : text)
    if (c != '\n' && !(c == ' ' && plain.ends_with(' ')))
      plain += c;
    else if (!plain.ends_with(' '))
      plain += ' ';
  return plain;
}

/// A page as it is read: HTML writes an apostrophe as a number.
std::string read_as_text(const std::string& html) {
  const std::string apostrophe = "&#39;";
  std::string text = unfolded(html);
  for (auto at = text.find(apostrophe); at != std::string::npos; at = text.find(apostrophe))
    text.replace(at, apostrophe.size(), "'");
  return text;
}

}  // namespace

TEST_CASE("sixty images stand as their reasons say, and are foretold and written by that",
          "[long][count]") {
  for (const StandingRow& row : standing_rows()) {
    INFO(row.layout << ": " << row.reason);
    const Case one(row);
    const Ran verified = one.run({"verify"}, {"--json"});
    CHECK(verified.code == row.exit);
    CHECK(standing_in(Json::parse(verified.out)) == row.standing);
    CHECK(one.forecast() == row.forecast);
    CHECK(one.writers() == row.writers);
  }
}

TEST_CASE("amend says that it took the clock to BCD on a 24-hour dial") {
  Bench bench;
  // 20h on a 12-hour dial, in BCD (DS12885, register B = 00h).
  std::vector<std::uint8_t> bytes = at_64_bytes();
  bytes[0x04] = 0x20;
  bytes[0x0B] = 0x00;
  bench.put("dump.bin", bytes);
  const Ran ran = bench.run(
      {"amend", "dump.bin", "--layout", "at", "--clock", "2031-06-01T20:00:00", "-o", "new.bin"});
  CHECK(ran.code == 0);
  CHECK(unfolded(ran.out).find(
            "Note: The clock now counts in BCD on a 24-hour dial, as PC firmware "
            "reads it; register B had BCD on a 12-hour dial.") != std::string::npos);
  CHECK(bench.bytes("new.bin")[0x0B] == 0x02);
  CHECK(bench.bytes("new.bin")[0x04] == 0x20);
}

TEST_CASE("terminal, JSON, sheet, page and audit say the same of every standing", "[long][count]") {
  for (const StandingRow& row : standing_rows()) {
    INFO(row.layout << ": " << row.reason);
    const Case one(row);
    const Json verified = one.json("verify");
    CHECK(standing_in(verified) == row.standing);
    CHECK(standing_in(one.json("show")) == row.standing);

    // One object a line: the dump, then the summary.
    const std::string lines = one.run({"audit"}, {"--json"}).out;
    const Json audited = Json::parse(lines.substr(0, lines.find('\n')));
    CHECK(standing_in(audited) == row.standing);
    CHECK(audited["worth"] == worth_of(row));
    CHECK((audited["reason"] == "sound") == (row.exit == 0));

    // A machine's folder with this one dump in it.
    one.bench().shell("mkdir -p folder && cp dump.txt folder/2031-05-14.txt");
    const auto history = [&](std::vector<std::string> more) {
      std::vector<std::string> words{"history", "folder", "--layout", row.layout};
      words.insert(words.end(), more.begin(), more.end());
      return one.bench().run(words).out;
    };
    CHECK(standing_in(Json::parse(history({"--json"}))["entries"][0]) == row.standing);

    // The page judges the image by what it read.
    rtcmend::Workbench page;
    const std::string image = image_text(row.image);
    const Json look = Json::parse(page.call(
        Json({{"do", "look"},
              {"image", image},
              {"layout", row.layout},
              {"read", {{"image", image}, {"misread", Json::array()}, {"again", nullptr}}}})
            .dump()));
    CHECK(standing_in(look) == row.standing);
    CHECK(look["sound"] == verified["sound"]);

    const std::string verdict = look["verdict"];
    const std::string shown = unfolded(one.run({"show"}).out);
    const std::string told = unfolded(one.run({"verify"}).out);
    CHECK(times(shown, verdict) >= 1);
    CHECK(times(told, verdict) >= 1);
    CHECK(times(unfolded(history({})), verdict.substr(0, verdict.find(" ("))) >= 1);
    one.run({"sheet"}, {"-o", "sheet.html"});
    CHECK(times(read_as_text(one.bench().get("sheet.html")), verdict) >= 1);
  }
}
