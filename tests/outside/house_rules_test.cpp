// The order of the floors and who may speak of commands, held against the sources themselves.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "base/files.h"
#include "base/text.h"

using namespace rtcmend;
namespace fs = std::filesystem;

namespace {

/// What each floor may include, besides itself; the same order as in src/CMakeLists.txt.
const std::map<std::string, std::set<std::string>> floors = [] {
  const std::set<std::string> ground{"base", "chip", "check"};
  std::set<std::string> below_judge = ground;
  below_judge.insert("layout");
  const auto with = [](std::set<std::string> floor, std::initializer_list<const char*> more) {
    floor.insert(more.begin(), more.end());
    return floor;
  };
  const auto judged = with(below_judge, {"judge"});
  const auto desk = with(judged, {"forms", "identify", "repair", "make"});
  const auto render = with(desk, {"qr", "codes", "audit", "upkeep", "discover", "deliver", "desk"});
  return std::map<std::string, std::set<std::string>>{
      {"base", {}},
      {"chip", {"base"}},
      {"check", {"base"}},
      {"forms", {"base", "check"}},
      {"qr", {"base"}},
      {"layout", ground},
      {"discover", below_judge},
      {"judge", below_judge},
      {"identify", judged},
      {"repair", judged},
      {"codes", judged},
      {"upkeep", with(judged, {"repair"})},
      {"make", judged},
      {"deliver", below_judge},
      {"board", ground},
      {"audit", with(judged, {"identify"})},
      {"desk", desk},
      {"render", render},
      {"sheet", with(render, {"render", "board"})},
      {"terminal", with(render, {"render", "sheet", "board"})},
      {"page", with(render, {"render", "sheet", "board"})},
      {"cli", with(render, {"render", "sheet", "terminal", "board"})},
  };
}();

struct Source {
  std::string floor, path, text;
};

std::vector<Source> sources() {
  std::vector<Source> all;
  const fs::path root = fs::path(RTCMEND_SOURCE_DIR) / "src";
  for (const auto& entry : fs::recursive_directory_iterator(root)) {
    const std::string ending = entry.path().extension().string();
    const fs::path inside = fs::relative(entry.path(), root);
    if ((ending != ".cpp" && ending != ".h") || !inside.has_parent_path()) continue;
    all.push_back({inside.begin()->string(), inside.string(), read_whole(entry.path().string())});
  }
  return all;
}

/// The texts in quotation marks of a source, comments left out.
std::vector<std::string> literals(const std::string& text) {
  std::vector<std::string> all;
  static const std::regex literal(R"re("((?:[^"\\\n]|\\.)*)")re");
  for (const std::string_view line : lines(text)) {
    const std::string code(line.substr(0, line.find("//")));
    if (code.starts_with("#include")) continue;
    for (std::sregex_iterator found(code.begin(), code.end(), literal), end; found != end; ++found)
      all.push_back((*found)[1]);
  }
  return all;
}

}  // namespace

TEST_CASE("a floor includes only what lies below it") {
  static const std::regex include("#include \"([a-z]+)/");
  std::size_t seen = 0;
  for (const Source& source : sources()) {
    REQUIRE(floors.contains(source.floor));
    const std::set<std::string>& allowed = floors.at(source.floor);
    for (std::sregex_iterator found(source.text.begin(), source.text.end(), include), end;
         found != end; ++found) {
      const std::string used = (*found)[1];
      INFO(source.path << " includes " << used);
      CHECK((used == source.floor || allowed.contains(used)));
      ++seen;
    }
  }
  CHECK(seen > 500);
}

TEST_CASE("every folder of src is a floor, and every floor a folder") {
  std::set<std::string> folders, known;
  for (const Source& source : sources()) folders.insert(source.floor);
  for (const auto& [floor, allowed] : floors) known.insert(floor);
  CHECK(folders == known);
}

TEST_CASE("nothing below the terminal and the command line names a command or an option") {
  static const std::regex option("(^|[^-a-z])--[a-z]"), command("rtcmend [a-z]+");
  // Sentences that speak of the program, and what the program writes into files of its own.
  static const std::regex allowed(
      "rtcmend (does|neither|knows|reads|itself|places|page|finds|mends|shows|that)");
  std::size_t seen = 0;
  for (const Source& source : sources()) {
    if (source.floor == "terminal" || source.floor == "cli") continue;
    for (const std::string& text : literals(source.text)) {
      INFO(source.path << ": " << text);
      CHECK_FALSE(std::regex_search(text, option));
      CHECK((!std::regex_search(text, command) || std::regex_search(text, allowed)));
      ++seen;
    }
  }
  CHECK(seen > 1000);
}

TEST_CASE("no type has the name of another one: two would be one to the linker") {
  // A rule of the language (one definition): what breaks it goes wrong without a word.
  static const std::regex type(
      "(?:^|\\n)(?:struct|class|enum class) ([A-Za-z]+)(?: final)?[^;{\\n]*\\{");
  std::map<std::string, std::string> known;
  for (const Source& source : sources()) {
    if (!source.path.ends_with(".h")) continue;
    for (std::sregex_iterator found(source.text.begin(), source.text.end(), type), end;
         found != end; ++found) {
      const auto [entry, is_new] = known.emplace((*found)[1], source.path);
      INFO((*found)[1] << " in " << source.path << " and " << entry->second);
      CHECK(is_new);
    }
  }
  CHECK(known.size() > 150);
}
