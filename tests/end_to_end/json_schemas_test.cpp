// docs/json/ holds a JSON Schema for what each command prints with --json. Every command is run
// here on the example workshop, and every line that it prints is held against its schema.

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <functional>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "base/files.h"
#include "base/text.h"
#include "cli/commands.h"
#include "layout/json_schema.h"
#include "layout/schema.h"
#include "support/schema_rules.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

const fs::path schema_folder = fs::path(RTCMEND_SOURCE_DIR) / "docs/json";
const fs::path examples = fs::path(RTCMEND_SOURCE_DIR) / "examples";
/// What the schemas share; it belongs to no command.
constexpr const char* shared = "common.json";

/// Points every reference into common.json to the schema's own definitions.
void bring_home(json& value) {
  if (!value.is_structured()) return;
  for (auto& [key, inner] : value.items()) {
    if (key == "$ref" && inner.get<std::string>().starts_with(shared))
      inner = inner.get<std::string>().substr(std::string_view(shared).size());
    else
      bring_home(inner);
  }
}

json read_schema(const std::string& name) {
  return json::parse(read_whole((schema_folder / name).string()));
}

/// A command's schema with the definitions that it shares with others.
json schema_of(const std::string& command) {
  json schema = read_schema(command + ".json");
  bring_home(schema);
  schema["definitions"] = read_schema(shared)["definitions"];
  return schema;
}

bool has_json(const Command& command) {
  Options options{std::string(command.name), std::string(command.summary)};
  command.set_up(options);
  return std::any_of(
      options.declared().begin(), options.declared().end(), [](const Declared& declared) {
        return std::count(declared.names.begin(), declared.names.end(), "--json") > 0;
      });
}

std::set<std::string> commands_with_json() {
  std::set<std::string> names;
  for (const Command& command : commands())
    if (has_json(command)) names.insert(std::string(command.name));
  return names;
}

std::set<std::string> commands_with_schema() {
  std::set<std::string> names;
  for (const auto& file : fs::directory_iterator(schema_folder))
    if (file.path().filename() != shared) names.insert(file.path().stem().string());
  return names;
}

/// A copy of the workshop, and a few dumps more that something is the matter with.
struct Workshop : Workbench {
  Workshop() {
    fs::copy(examples, path(""), fs::copy_options::recursive);
    fs::copy(examples / "machines", path(""));
    std::string bramble = get("bramble.bin");
    put("without-clock.bin", std::string_view(bramble).substr(14));
    put("as-ff.bin", std::string(64, '\xFF'));
    put("twice.bin", bramble + bramble);
    put("packed.bin", bramble + std::string(64, '\0'));
    put("clock-of-noise.bin", '\x99' + bramble.substr(1));
    bramble[0x2F] = static_cast<char>(bramble[0x2F] + 1);
    put("damaged.bin", bramble);
    put("without-row-20.txt",
        "00: 12 00 03 00 21 00 02 23 11 26 26 02 00 80 00 00 =DD\n"
        "10: 40 00 F0 00 0D 80 02 80 01 2F 00 00 00 00 00 00 =12\n"
        "30: 80 01 20 80 00 00 00 00 00 00 00 00 00 00 00 00 =90\n");
    put("no-dump.txt", "nothing to see here\n");
    fs::create_directory(path("folder"));
    put("folder/2031-05-14.bin", bramble);
    put("folder/2031-05-15.txt", "no dump");
    put("folder/2031-05-16.md", "a note");
    REQUIRE(shell("tar cf all.tar bramble.bin juniper.txt").code == 0);
  }
};

/// The lines that a command prints with --json; an object over several lines counts as one.
std::vector<json> printed(const Workbench& bench, const std::string& line) {
  auto words = split(line, ' ');
  words.emplace_back("--json");
  const Ran ran = bench.run(words);
  INFO(line << "\n" << ran.err);
  CHECK((ran.code == 0 || ran.code == 1));
  std::vector<json> objects;
  std::istringstream stream(ran.out);
  while ((stream >> std::ws).good()) stream >> objects.emplace_back();
  CHECK_FALSE(objects.empty());
  return objects;
}

/// Command lines for everything that has --json; what one writes, another reads.
const std::vector<std::string> lines_to_run = {
    "show bramble.bin",
    "show juniper.txt --layout at",
    "show without-clock.bin --layout at",
    "show as-ff.bin --layout crc+slots-19",
    "show without-row-20.txt --layout at",
    "verify bramble.bin",
    "verify juniper.txt --layout at",
    "verify sorrel.hex --layout crc+slots-19",
    "verify damaged.bin --layout at --again bramble.bin",
    "verify bramble.bin --part DS12887A",
    "identify bramble.bin",
    "identify juniper.txt",
    "identify twice.bin",
    "identify as-ff.bin",
    "identify unknown/dump00.bin",
    "amend bramble.bin --set floppy_b=none -o amended.bin",
    "amend damaged.bin --layout at --clock 2031-05-14T09:30 -o amended.txt",
    "amend clock-of-noise.bin --layout at --set floppy_b=none -o noisy.bin --unsound-anyway",
    "seal sorrel.hex --layout crc+slots-19 -o sealed.hex",
    "compose yarrow.json -o yarrow.bin",
    "convert bramble.bin --to intel-hex -o bramble.hex",
    "convert bramble.hex --to s-record -o bramble.s19",
    "convert without-clock.bin --to json -o without-clock.json",
    "show without-clock.json --layout at",
    "compare amended.bin bramble.bin --layout at",
    "compare bramble.bin without-clock.bin --layout at",
    "compare bramble.bin sealed.hex --layout crc+slots-19",
    "compare retention/written.bin retention/after-30-minutes.bin --after-power-off 30m",
    "compare retention/written.bin retention/few-bits.bin --after-power-off 30m",
    "compare retention/written.bin retention/all-lost.bin --after-power-off 30m",
    "compare retention/written.bin retention/clock-stood.bin --after-power-off 30m",
    "deliver --list",
    "deliver --have dos,writable",
    "deliver bramble.bin --as boot-floppy -o mend.img",
    "deliver bramble.bin --as debugger-script -o mend.scr",
    "deliver bramble.bin --as keyboard-program -o mend.txt",
    "deliver damaged.bin --layout at --as dos-program -o mend.com --unsound-anyway",
    "deliver sealed.hex --layout crc+slots-19 --as basic-listing -o mend.bas",
    "capture --as basic-listing -o read.bas",
    "capture --as boot-floppy -o read.img",
    "board wiring",
    "board wiring --part DS12887",
    "forecast bramble.bin",
    "forecast juniper.txt --layout at",
    "explain 161 163 999",
    "explain 161 163 --dump juniper.txt --layout at",
    "sheet bramble.bin -o sheet.html",
    "layouts check unknown/draft.json --with unknown/dump00.bin unknown/dump05.bin",
    "page",
    "page bramble.bin -o bench.html",
    "layouts list",
    "layouts check layouts/fennel.json",
    "drives --cylinders 615 --heads 4 --sectors 17",
    "drives --cylinders 615 --heads 4 --sectors 17 --layout at+disks-1b",
    "drives --capacity 40M",
    "drives --cylinders 5000 --heads 16 --sectors 63 --layout at+disks-1b",
    "chips",
    "chips DS12887",
    "plan --fitted 2031-05-14",
    "plan --part MC146818A --cell LR44 --fitted 2031-05-14",
    "plan --part DS12887 --powered 100% --diode silicon --fitted 2031-05-14",
    "plan --part DS12R887 --fitted 2031-05-14",
    "plan --part MC146818A --cell 6V-LITHIUM --temperature 60 --fitted 2031-05-14",
    "drift 2031-05-01T12:00 --at 2031-05-01T12:00 --log clock.log",
    "drift 2031-05-01T12:00 2031-05-31T12:01 --at 2031-05-01T12:00 --at 2031-05-31T12:00",
    "drift 2031-05-01T12:00 1980-01-01T00:00 --at 2031-05-01T12:00 --at 2031-05-31T12:00",
    "drift 2031-05-01T12:00 2031-05-01T12:00 --at 2031-05-01T12:00 --at 2031-05-31T12:00",
    "history history/fennel",
    "history folder --layout at",
    "amend bramble.bin --set floppy_a=360K -o first.bin",
    "amend bramble.bin --set base_memory_kib=512 -o second.bin",
    "amend bramble.bin --set floppy_a=720K --set extended_memory_kib=4096 -o third.bin",
    "solve bramble.bin first.bin second.bin third.bin --kind sum --at 2E",
    "solve bramble.bin first.bin second.bin third.bin --kind xor --kind balance --at 2F",
    "solve unknown/dump00.bin unknown/dump04.bin unknown/dump08.bin unknown/dump12.bin "
    "unknown/dump20.bin",
    "solve unknown/dump00.bin unknown/dump04.bin unknown/dump08.bin --kind sum --kind balance",
    "trace unknown/session.json",
    "trace --step a=1:bramble.bin --step a=2:first.bin --step a=1:second.bin --step b=1:third.bin "
    "--step b=2:third.bin",
    "audit bramble.bin damaged.bin juniper.txt no-dump.txt history all.tar",
    "audit --packed 64 packed.bin --layout at"};

/// Every schema inside a schema that is a property of an object.
void each_property(const json& schema, const std::string& at,
                   const std::function<void(const json&, const std::string&)>& visit) {
  if (!schema.is_structured()) return;
  for (const auto& [key, inner] : schema.items()) {
    const std::string inside = at + "/" + key;
    if (key == "properties" && schema.is_object())
      for (const auto& [name, property] : inner.items()) visit(property, inside + "/" + name);
    each_property(inner, inside, visit);
  }
}

}  // namespace

TEST_CASE("every command with --json has a schema, and every schema a command") {
  CHECK(commands_with_json() == commands_with_schema());
}

TEST_CASE("what every command prints as JSON fits its schema", "[long]") {
  const Workshop bench;
  std::set<std::string> run;
  for (const std::string& line : lines_to_run) {
    const std::string command = line.substr(0, line.find(' '));
    const json schema = schema_of(command);
    for (const json& object : printed(bench, line)) {
      const auto mismatch = find_mismatch(object, schema);
      INFO("rtcmend " << line);
      if (mismatch)
        FAIL_CHECK(mismatch->at << ": the schema " << mismatch->what << " (" << mismatch->rule
                                << ")");
    }
    run.insert(command);
  }
  CHECK(run == commands_with_json());
}

TEST_CASE("a layout that is printed or drafted as JSON fits the schema of layouts") {
  const Workshop bench;
  for (const json& layout : printed(bench, "layouts print crc+slots-19"))
    CHECK_NOTHROW(check_against_schema(layout, "crc+slots-19"));
  for (const json& found : printed(bench, "trace unknown/session.json"))
    CHECK_NOTHROW(check_against_schema(found["draft"], "draft"));
}

TEST_CASE("a line with a key too many, too few or wrong is told from one that fits") {
  const Workshop bench;
  for (const std::string line : {"verify bramble.bin", "audit bramble.bin", "chips",
                                 "amend bramble.bin --set floppy_b=none -o new.bin"}) {
    INFO(line);
    const json schema = schema_of(line.substr(0, line.find(' ')));
    const json good = printed(bench, line).front();
    REQUIRE_FALSE(find_mismatch(good, schema));
    json more = good;
    more["colour"] = "red";
    const auto extra = find_mismatch(more, schema);
    REQUIRE(extra);
    CHECK(extra->what == "has no key \"colour\" here");
    for (const auto& [key, value] : good.items()) {
      INFO(key);
      json less = good;
      less.erase(key);
      CHECK(find_mismatch(less, schema));
      json wrong = good;
      wrong[key] = {{"an", "object"}};
      CHECK(find_mismatch(wrong, schema));
    }
  }
}

TEST_CASE("the schemas of docs/json say only what is heeded, and say what every key means") {
  for (const std::string& command : commands_with_schema()) {
    INFO(command);
    const json schema = schema_of(command);
    CHECK(unheeded(schema) == std::vector<std::string>{});
    CHECK(untyped(schema) == std::vector<std::string>{});
    each_property(schema, "", [&](const json& property, const std::string& at) {
      INFO(at);
      const bool refers = property.contains("$ref");
      const json& told =
          refers ? schema.at(json::json_pointer(property["$ref"].get<std::string>().substr(1)))
                 : property;
      CHECK((property.contains("description") || told.contains("description")));
      if (told.value("type", json()) == "object") CHECK(told.contains("additionalProperties"));
    });
  }
}
