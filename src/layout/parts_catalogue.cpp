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

struct Catalogue {
  std::vector<Part> parts;
  std::vector<Pin> pins;
  std::string pins_source;
};

Package read_package(const std::string& name) {
  if (name == "bare") return Package::bare;
  return name == "potted" ? Package::potted : Package::module;
}

CellPlace read_cell(const std::string& name) {
  if (name == "outside") return CellPlace::outside;
  return name == "built-in" ? CellPlace::built_in : CellPlace::rechargeable;
}

Part read_part(const json& entry) {
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
  part.cell_microamps = entry.value("cell_microamps", part.cell_microamps);
  part.cell_current_source =
      entry.value("cell_current_source", "from memory: 0.5 uA is the family's planning figure");
  for (const json& other : entry.value("replaces", json::array()))
    part.replaces.push_back({other["part"], other["changes"], other["source"]});
  part.notes = entry.value("notes", std::vector<std::string>{});
  part.source = entry["source"];
  return part;
}

Catalogue read_catalogue() {
  // The tests hold the file against its schema, so starting need not.
  const json file = parse_json(embedded_text("chips"), "chips");
  Catalogue catalogue;
  for (const json& entry : file["parts"]) catalogue.parts.push_back(read_part(entry));
  for (const json& entry : file["pins"]) catalogue.pins.push_back({entry["pin"], entry["what"]});
  catalogue.pins_source = file["pins_source"];
  return catalogue;
}

const Catalogue& catalogue() {
  static const Catalogue read = read_catalogue();
  return read;
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
  return catalogue().parts;
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

const std::vector<Pin>& common_pins() {
  return catalogue().pins;
}

const std::string& pins_source() {
  return catalogue().pins_source;
}

}  // namespace rtcmend
