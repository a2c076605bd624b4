// examples/unknown/ holds what docs/unknown-machine.md works through. Its dumps come from the
// invented firmware of tests/support/.

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/files.h"
#include "discover/bench_session.h"
#include "discover/draft.h"
#include "layout/codec.h"
#include "layout/load.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

std::string path_of(const std::string& name) {
  return std::string(RTCMEND_SOURCE_DIR) + "/examples/unknown/" + name;
}

std::vector<Step> simulated_session() {
  InventedMachine machine(workbench_firmware(), 1);
  std::vector<Step> steps = sit_at_the_bench(machine);
  for (std::size_t i = 0; i < steps.size(); ++i) steps[i].name = fmt::format("dump{:02}.bin", i);
  return steps;
}

std::string bytes_of(const Image& image) {
  const auto bytes = image.bytes();
  return {bytes.begin(), bytes.end()};
}

nlohmann::ordered_json session_of(const std::vector<Step>& steps) {
  nlohmann::ordered_json session = {{"layout", nullptr},
                                    {"steps", nlohmann::ordered_json::array()}};
  for (const Step& step : steps) {
    nlohmann::ordered_json entry = nlohmann::ordered_json::object();
    if (!step.setting.empty()) {
      entry["label"] = step.setting;
      entry["value"] = step.value;
    }
    entry["dump"] = step.name;
    session["steps"].push_back(entry);
  }
  return session;
}

std::vector<Step> session_on_disk() {
  const SessionFile file = parse_session(read_whole(path_of("session.json")), "session.json");
  std::vector<Step> steps;
  for (const SessionEntry& entry : file.entries) {
    const std::string bytes = read_whole(path_of(entry.dump));
    const std::vector<std::uint8_t> raw(bytes.begin(), bytes.end());
    steps.push_back({entry.setting, entry.value, entry.dump, Image(raw)});
  }
  return steps;
}

const Field& field_named(const Layout& layout, const std::string& id) {
  const Field* field = layout.field(id);
  REQUIRE(field != nullptr);
  return *field;
}

}  // namespace

// Writes the example anew: tests_discover "[write]".
TEST_CASE("the example's dumps are written from the simulator", "[.][write]") {
  const WriteRules replace{true, {}};
  const auto steps = simulated_session();
  for (const Step& step : steps) write_whole(path_of(step.name), bytes_of(step.image), replace);
  write_whole(path_of("session.json"), session_of(steps).dump(1) + "\n", replace);
  const Draft draft = draft_layout(trace(steps, {}, {}));
  write_whole(path_of("draft.json"), draft.layout.dump(2) + "\n", replace);
  CHECK(steps.size() == 41);
}

TEST_CASE("the example's dumps are those of the simulator") {
  const auto simulated = simulated_session(), kept = session_on_disk();
  REQUIRE(kept.size() == simulated.size());
  for (std::size_t i = 0; i < kept.size(); ++i) {
    INFO(kept[i].name);
    CHECK(kept[i].image == simulated[i].image);
    CHECK(kept[i].setting == simulated[i].setting);
    CHECK(kept[i].value == simulated[i].value);
  }
}

TEST_CASE("the example's session gives the draft that the guide shows") {
  const auto steps = session_on_disk();
  const Trace found = trace(steps, {}, {});
  const auto parts = [](std::string_view) { return std::string_view(); };
  const Layout layout = load_layout(draft_layout(found).layout.dump(), "draft", parts);

  REQUIRE(found.checks.size() == 1);
  CHECK(found.checks[0].check.stored_at == 0x3E);
  const auto* crc = std::get_if<CrcRule>(&found.checks[0].check.rule);
  REQUIRE(crc != nullptr);
  CHECK(crc->model.poly == 0x1021);
  CHECK(found.restless == Addresses{0x30});
  CHECK(found.contradictions.empty());

  const Image& first = steps[0].image;
  CHECK(read_field(field_named(layout, "floppy_b"), first).text == "none");
  CHECK(read_field(field_named(layout, "memory"), first).text == "640 KiB");
  CHECK(read_field(field_named(layout, "start_delay"), first).text == "5");
  CHECK(read_field(field_named(layout, "display"), first).text == "colour");
  CHECK(field_named(layout, "display").bits.size() == 2);
}

TEST_CASE("the draft in the example is what the session gives") {
  const Draft draft = draft_layout(trace(session_on_disk(), {}, {}));
  CHECK(read_whole(path_of("draft.json")) == draft.layout.dump(2) + "\n");
}
