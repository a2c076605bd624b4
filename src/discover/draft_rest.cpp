#include "discover/draft_rest.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

using Json = nlohmann::ordered_json;

namespace {

Json entry_of(const std::string& id, const std::string& label) {
  return {{"id", id},
          {"label", label},
          {"group", "never changed"},
          {"source", "traced: the same in every dump"},
          {"read_only", true}};
}

Json bytes_entry(const Trace& trace, const Range& range) {
  Json entry = entry_of(lower("still_" + hex2(range.first)),
                        "Never changed, " + to_prose(to_addresses(range)));
  entry["at"] = to_text(range);
  entry["bytes"] = Json::object();
  entry["default"] = hex_at(trace.rest, range);
  return entry;
}

// Bits beside those of a field.
Json bits_entry(const Trace& trace, Address at, unsigned high, unsigned low) {
  Json entry = entry_of(lower(fmt::format("still_{}_{}", hex2(at), high)),
                        fmt::format("Never changed, {} bits {}-{}", hex_prose(at), high, low));
  const unsigned mask = (1U << (high - low + 1)) - 1;
  entry["at"] = hex2(at);
  entry["bits"] = {high, low};
  entry["number"] = Json::object();
  entry["default"] = trace.rest[at] >> low & mask;
  return entry;
}

void add_bits(const Trace& trace, Address at, std::uint8_t taken, Json& fields) {
  const unsigned free = ~taken & 0xFFU;
  for (unsigned high = 8; high-- > 0;) {
    if ((free >> high & 1U) == 0) continue;
    unsigned low = high;
    while (low > 0 && (free >> (low - 1) & 1U) != 0) --low;
    const unsigned mask = ((1U << (high - low + 1)) - 1) << low;
    if ((trace.rest[at] & mask) != 0) fields.push_back(bits_entry(trace, at, high, low));
    high = low;
  }
}

}  // namespace

std::string hex_at(const Image& image, const Range& range) {
  std::string digits;
  for (const Address at : to_addresses(range)) digits += hex2(image[at]);
  return digits;
}

Json fields_at_rest(const Trace& trace, const std::vector<std::uint8_t>& taken) {
  Json fields = Json::array();
  Addresses whole;
  for (const Address at : trace.still)
    if (taken[at] == 0 && trace.rest[at] != 0) whole.push_back(at);
  for (std::size_t i = Image::ram_start; i < trace.rest.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (trace.rest.known(at) && taken[at] != 0 && taken[at] != 0xFF)
      add_bits(trace, at, taken[at], fields);
  }
  for (const Range& range : to_ranges(whole)) fields.push_back(bytes_entry(trace, range));
  return fields;
}

}  // namespace rtcmend
