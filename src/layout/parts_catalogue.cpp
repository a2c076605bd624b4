#include "layout/parts_catalogue.h"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "base/image.h"
#include "base/json.h"
#include "base/text.h"
#include "layout/library.h"

namespace rtcmend {

using nlohmann::json;

namespace {

Package read_package(const std::string& name) {
  if (name == "bare") return Package::bare;
  return name == "potted" ? Package::potted : Package::module;
}

CellPlace read_cell(const std::string& name) {
  if (name == "outside") return CellPlace::outside;
  return name == "built-in" ? CellPlace::built_in : CellPlace::rechargeable;
}

CellInput read_input(const json& entry) {
  return {entry["plus"],
          entry["minus"],
          entry["least_volts"],
          entry["most_volts"],
          entry["between"] == "nothing" ? Between::nothing : Between::diode_and_resistor,
          entry["source"]};
}

/// The part's table of pins, its RAM-clear input at its place in it.
void read_pins(const json& table, Part& part) {
  for (const json& entry : table["pins"]) {
    const std::string pin = entry["pin"];
    if (part.ram_clear_pin && pin == "23")
      part.pins.push_back({std::to_string(*part.ram_clear_pin), "RCLR, RAM clear"});
    part.pins.push_back({pin, entry["what"]});
  }
  part.pins_source = table["source"];
}

Part read_part(const json& entry, const json& tables) {
  Part part;
  part.name = entry["name"];
  part.ram_bytes = entry["ram_bytes"];
  part.size = part.ram_bytes == 50 ? Image::small_size : Image::large_size;
  part.package = read_package(entry["package"]);
  part.cell = read_cell(entry["cell"]);
  part.keeps_century = entry.value("century_at_32", false);
  part.ram_clear = entry.contains("ram_clear");
  if (part.ram_clear && entry["ram_clear"].is_number())
    part.ram_clear_pin = entry["ram_clear"].get<int>();
  part.ships_stopped = entry.value("ships_stopped", false);
  part.trickle_charger = entry.value("trickle_charger", false);
  if (entry.contains("pins")) read_pins(tables[entry["pins"].get<std::string>()], part);
  if (entry.contains("cell_input")) part.cell_input = read_input(entry["cell_input"]);
  part.vrt_set_by_reading = entry.value("vrt_set_by_reading", false);
  part.running_dividers = entry.value("running_dividers", part.running_dividers);
  part.daylight_saving = entry.value("daylight_saving", "");
  part.daylight_source = entry.value("daylight_source", "");
  part.cell_microamps = entry.value("cell_microamps", part.cell_microamps);
  part.cell_current_source =
      entry.value("cell_current_source", "from memory: 0.5 uA is the family's planning figure");
  for (const json& other : entry.value("replaces", json::array()))
    part.replaces.push_back({other["part"], other["changes"], other["source"]});
  part.notes = entry.value("notes", std::vector<std::string>{});
  part.source = entry["source"];
  return part;
}

std::vector<Part> read_catalogue() {
  // The tests hold the file against its schema, so starting need not.
  const json file = parse_json(embedded_text("chips"), "chips");
  std::vector<Part> parts;
  for (const json& entry : file["parts"]) parts.push_back(read_part(entry, file["pin_tables"]));
  return parts;
}

/// "ds 12887+" as the catalogue has it: "DS12887".
std::string as_catalogued(std::string_view name) {
  std::string plain;
  for (const char c : trim(name))
    if (c != ' ' && c != '-' && c != '+')
      plain += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return plain;
}

}  // namespace

const std::vector<Part>& known_parts() {
  static const std::vector<Part> read = read_catalogue();
  return read;
}

const Part& need_part(std::string_view name) {
  const std::string wanted = as_catalogued(name);
  std::vector<std::string> names;
  for (const Part& part : known_parts()) {
    if (part.name == wanted) return part;
    names.push_back(part.name);
  }
  const auto near = nearest(wanted, names);
  refuse("part", fmt::format("there is no part \"{}\" in the catalogue", printable(name)),
         near.empty()
         ? [&]() -> Advice { return {{"See the parts", Act{Act::Kind::list, "parts", {}}}}; }()
         : Advice("did you mean " + join(near, " or ") + "?"));
}

std::vector<Successor> successors(const Part& part) {
  std::vector<Successor> found;
  for (const Part& candidate : known_parts())
    for (const Replacement& replacement : candidate.replaces)
      if (replacement.part == part.name) found.push_back({&candidate, &replacement});
  return found;
}

const CellInput& usual_cell_input() {
  return *need_part("DS1287").cell_input;
}

}  // namespace rtcmend
