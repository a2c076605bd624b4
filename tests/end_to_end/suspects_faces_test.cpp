#include <catch2/catch.hpp>
#include <regex>

#include "base/text.h"
#include "end_to_end/workbench.h"
#include "page/image_text.h"
#include "page/workbench.h"
#include "render/json.h"
#include "support/sound_images.h"

using namespace rtcmend;

// One model of what went wrong stands behind every face: the same suspects, in the same order, with
// the same odds.

namespace {

struct Shown {
  std::string id;
  std::string odds;  ///< as people read them

  friend bool operator==(const Shown&, const Shown&) = default;
};

std::ostream& operator<<(std::ostream& out, const Shown& shown) {
  return out << shown.odds << " " << shown.id;
}

std::string percent(double odds) {
  if (odds > 0.99) return ">99";
  return odds < 0.01 ? "<1" : std::to_string(static_cast<int>(odds * 100 + 0.5));
}

std::vector<Shown> in_json(const Json& suspects) {
  std::vector<Shown> all;
  for (const Json& one : suspects)
    all.push_back({one["id"].get<std::string>(), percent(one["odds"].get<double>())});
  return all;
}

std::string without_markup(std::string odds) {
  if (odds.starts_with("&lt;")) odds.replace(0, 4, "<");
  if (odds.starts_with("&gt;")) odds.replace(0, 4, ">");
  return odds;
}

/// Every match of a pattern: odds, then the suspect.
std::vector<Shown> found(const std::string& text, const std::string& pattern) {
  std::vector<Shown> all;
  const std::regex regex(pattern);
  for (std::sregex_iterator at(text.begin(), text.end(), regex), end; at != end; ++at)
    all.push_back({(*at)[2], without_markup((*at)[1])});
  return all;
}

std::vector<Shown> first_of(std::vector<Shown> all, std::size_t most) {
  if (all.size() > most) all.resize(most);
  return all;
}

/// What the page shows of a dump, and of a further one of the same chip.
std::vector<Shown> on_the_page(const std::string& dump, const std::string& again) {
  rtcmend::Workbench bench;
  const auto call = [&](const Json& request) { return Json::parse(bench.call(request.dump())); };
  const Json opened =
      call({{"do", "open"}, {"content", hex_text(dump)}, {"name", "dump"}, {"layout", "at"}});
  REQUIRE(opened["ok"] == true);
  Json about{{"layout", "at"}, {"image", opened["image"]}, {"read", opened["read"]}};
  if (!again.empty()) {
    Json compare = about;
    compare.update({{"do", "compare"}, {"content", hex_text(again)}, {"name", "again"}});
    about["read"]["again"] = call(compare)["found"];
  }
  about["do"] = "suspects";
  return in_json(call(about)["suspects"]);
}

std::string listing_of(const std::vector<std::uint8_t>& bytes) {
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); i += 16) {
    text += hex2(static_cast<std::uint8_t>(i)) + ":";
    for (std::size_t k = 0; k < 16; ++k) text += " " + hex2(bytes[i + k]);
    text += "\n";
  }
  return text;
}

}  // namespace

TEST_CASE(
    "verify, its JSON, amend, the page and the sheet show the same suspects with the same odds",
    "[long]") {
  auto bytes = at_64_bytes();
  bytes[0x12] ^= 0x08;
  const std::string raw(bytes.begin(), bytes.end()), typed = listing_of(bytes);
  const auto sound = at_64_bytes();
  struct Case {
    const char* name;
    std::string dump, again;
  };
  for (const auto& [name, dump, again] :
       {Case{"read once", raw, ""}, Case{"typed", typed, ""},
        Case{"wavering", raw, std::string(sound.begin(), sound.end())}}) {
    INFO(name);
    const test::Workbench bench;
    bench.put("dump", dump);
    std::vector<std::string> reading{"--layout", "at"};
    if (!again.empty()) {
      bench.put("again", again);
      reading.insert(reading.end(), {"--again", "again"});
    }
    const auto run = [&](std::vector<std::string> words) {
      words.insert(words.end(), reading.begin(), reading.end());
      return bench.run(words);
    };
    const auto all = in_json(Json::parse(run({"verify", "dump", "--json"}).out)["suspects"]);
    REQUIRE_FALSE(all.empty());
    CHECK(found(run({"verify", "dump"}).out,
                "\n  ([<>]?[0-9]+) % +([a-z]+-[-+.0-9A-Za-z]+)(?=\n)") == first_of(all, 8));
    CHECK((run({"verify", "dump"}).out.find("dump --again again --layout at --accept") !=
           std::string::npos) == !again.empty());
    CHECK(on_the_page(dump, again) == all);
    // What hardly leaves a choice, of what wavers, counts as read once it is accepted.
    CHECK(run({"amend", "dump", "--accept", all.front().id, "-o", "mended"}).code == 0);
    CHECK(bench.has("mended"));
    CHECK(run({"sheet", "dump", "-o", "sheet.html"}).code <= 1);
    CHECK(found(bench.get("sheet.html"),
                "<b>((?:&[lg]t;)?[0-9]+) %</b>[^\n]*?<code>([a-z]+-[-+.0-9A-Za-z]+)</code>") ==
          first_of(all, 5));
  }
}

TEST_CASE("verify takes what an earlier dump of the machine had there as evidence, amend as well") {
  const test::Workbench bench;
  auto bytes = at_64_bytes();
  bench.put("earlier.bin", bytes);
  // The image has 00h at 28h, and so have many bytes beside it: only the earlier dump tells which.
  bytes[0x28] ^= 0x10;
  bench.put("now.bin", bytes);
  const auto suspects = [&](std::vector<std::string> words) {
    words.insert(words.begin(), {"verify", "now.bin", "--layout", "at", "--json"});
    return Json::parse(bench.run(words).out)["suspects"];
  };
  const Json with = suspects({"--before", "earlier.bin"});
  CHECK(with[0]["id"] == "bit-28-4");
  double without = 0;
  for (const Json& one : suspects({}))
    if (one["id"] == "bit-28-4") without = one["odds"].get<double>();
  CHECK(with[0]["odds"].get<double>() > without);
  CHECK(bench
            .run({"amend", "now.bin", "--layout", "at", "--before", "earlier.bin", "--accept",
                  "bit-28-4", "-o", "mended.bin"})
            .code == 0);
  CHECK(bench.bytes("mended.bin") == at_64_bytes());
}
