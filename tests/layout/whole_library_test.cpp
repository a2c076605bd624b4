#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <map>
#include <set>

#include "hand_images.h"

using namespace rtcmend;

namespace {

/// The claim must hold for every field of every built-in layout.
void every_field(const std::function<bool(const Layout&, const Field&)>& claim) {
  for (const std::string& id : built_in_layouts()) {
    const Layout layout = built_in_layout(id);
    for (const Field& field : layout.fields) {
      INFO(id << " " << field.id);
      CHECK(claim(layout, field));
    }
  }
}

std::vector<BitSlice> bits_claimed(const Layout& layout) {
  std::vector<BitSlice> claimed;
  for (const Field& field : layout.fields) {
    claimed.insert(claimed.end(), field.bits.begin(), field.bits.end());
    if (field.escape) claimed.push_back({field.escape->at, 7, 0});
  }
  for (const Check& check : layout.checks)
    for (const Address at : stored_addresses(check)) claimed.push_back({at, 7, 0});
  return claimed;
}

}  // namespace

TEST_CASE("the library knows every row of the family's maps") {
  CHECK(built_in_layouts() == std::vector<std::string>{"at",
                                                       "at+sum-10-20",
                                                       "at+sum-34-3d",
                                                       "at+sum-34-3d-40-57",
                                                       "at+sum-34-3d-40-64",
                                                       "at+sum-34-3d-40-6b",
                                                       "at+sum-36-3d-40-6d",
                                                       "at+sum-37-3d-40-51",
                                                       "at+sum-37-3d-40-52",
                                                       "at+sum-37-3d-40-73",
                                                       "at+sum-37-3d-40-7f",
                                                       "at+sum-40-4d",
                                                       "at+sum-40-59",
                                                       "at+sum-40-5e",
                                                       "at+sum-40-79",
                                                       "at+sum-40-7a",
                                                       "at+sum-40-7c",
                                                       "at+sum-40-7d",
                                                       "at+sum-41-7b",
                                                       "at+sum-41-7d",
                                                       "at+sum-42-79",
                                                       "at+sum-48-79",
                                                       "at+sum-50-7c",
                                                       "at+sum-34-38",
                                                       "at+disks-1b",
                                                       "at+disks-1b-short",
                                                       "at+disks-1d",
                                                       "at+disks-20",
                                                       "at+disks-26",
                                                       "at+memory-34",
                                                       "at+memory-35",
                                                       "at+options-11",
                                                       "at+options-11-fast",
                                                       "at+repeat-11",
                                                       "at+options-13",
                                                       "at+repeat-13",
                                                       "at+repeat-13-delay",
                                                       "at+shadow-2b",
                                                       "at+cache-2c",
                                                       "at+options-2d",
                                                       "at+shadow-34",
                                                       "at+options-3c",
                                                       "at+options-3e",
                                                       "balance",
                                                       "chip",
                                                       "crc",
                                                       "crc+copy-29",
                                                       "crc+slots-19"});
}

TEST_CASE("no bit of a built-in layout has two owners") {
  for (const std::string& id : built_in_layouts()) {
    std::map<int, int> owners;
    for (const BitSlice& slice : bits_claimed(built_in_layout(id)))
      for (int bit = slice.low; bit <= slice.high; ++bit) ++owners[slice.at * 8 + bit];
    for (const auto& [bit, count] : owners) {
      INFO(id << " byte " << bit / 8 << " bit " << bit % 8);
      CHECK(count == 1);
    }
  }
}

TEST_CASE("every default of a built-in layout is legal") {
  every_field([](const Layout&, const Field& field) {
    return std::holds_alternative<std::monostate>(field.preset) ||
           illegal_because(field, field.preset).empty();
  });
}

TEST_CASE("every field that follows finds its leaders, and they lead themselves") {
  every_field([](const Layout& layout, const Field& field) {
    if (!field.follows) return true;
    return std::ranges::all_of(field.follows->of, [&](const std::string& id) {
      return layout.field(id) != nullptr && !layout.field(id)->follows;
    });
  });
}

TEST_CASE("labels fit a table of 80 columns, and none stands twice in a layout") {
  every_field([](const Layout&, const Field& field) { return field.label.size() <= 44; });
  for (const std::string& id : built_in_layouts()) {
    INFO(id);
    const Layout layout = built_in_layout(id);
    std::set<std::string> labels;
    for (const Field& field : layout.fields) {
      INFO(field.label);
      CHECK(labels.insert(field.label).second);
    }
  }
}

TEST_CASE("ids of checks say what they cover") {
  for (const std::string& id : built_in_layouts()) {
    const Layout layout = built_in_layout(id);
    for (const Check& check : layout.checks) {
      INFO(id << " " << check.id);
      Addresses bytes = covered_addresses(check);
      if (kind(check) == "balance") bytes.insert(bytes.begin(), check.stored_at);
      std::string said = kind(check);
      // Stretches that a condition parts are one; those with a gap between them are two.
      for (std::size_t first = 0, i = 1; i <= bytes.size(); ++i) {
        if (i < bytes.size() && bytes[i] == bytes[i - 1] + 1) continue;
        said += "-" + lower(to_text(Range{bytes[first], bytes[i - 1]}));
        first = i;
      }
      CHECK(check.id == said);
    }
  }
}

TEST_CASE("what a field was told it says, in every built-in layout") {
  for (const std::string& id : built_in_layouts()) {
    const Layout layout = built_in_layout(id);
    Image image(std::vector<std::uint8_t>(layout.size, 0));
    for (const Field& field : layout.fields) {
      if (field.read_only || field.meaning == Meaning::concealed || field.choices.empty()) continue;
      INFO(id << " " << field.id);
      const std::string last = field.choices.back().name;
      write_field(field, last, image);
      CHECK(read_field(field, image).value == Value(last));
    }
  }
}
