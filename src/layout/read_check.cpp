#include "layout/read_check.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "base/text.h"
#include "layout/read_field.h"

namespace rtcmend {

using nlohmann::json;

namespace {

std::uint16_t read_hex(const json& entry, const char* key) {
  if (!entry.contains(key)) return 0;
  return static_cast<std::uint16_t>(parse_hex(entry[key].get<std::string>(), 0xFFFF).value_or(0));
}

Order read_order(const json& name) {
  return name == "low-first" ? Order::low_first : Order::high_first;
}

SumRule read_sum(const json& entry) {
  SumRule sum;
  sum.width = entry["width"];
  sum.start = read_hex(entry, "start");
  const std::string sign = entry.value("sign", "plain");
  sum.sign = sign == "negated"        ? Sign::negated
             : sign == "complemented" ? Sign::complemented
                                      : Sign::plain;
  if (entry.contains("pairs")) sum.pairs = read_order(entry["pairs"]);
  return sum;
}

CrcModel read_crc(const json& entry) {
  return {entry["width"], read_hex(entry, "poly"), read_hex(entry, "init"),
          entry["refin"], entry["refout"],         read_hex(entry, "xorout")};
}

Rule read_rule(const json& entry, const std::string& where) {
  if (entry.contains("sum") + entry.contains("xor") + entry.contains("crc") +
          entry.contains("balance") !=
      1)
    refuse(where, "a check has exactly one of sum, xor, crc, balance");
  if (entry.contains("sum")) return read_sum(entry["sum"]);
  if (entry.contains("crc")) return CrcRule{read_crc(entry["crc"])};
  if (entry.contains("xor"))
    return XorRule{static_cast<std::uint8_t>(read_hex(entry["xor"], "start"))};
  return BalanceRule{static_cast<std::uint8_t>(read_hex(entry["balance"], "target"))};
}

Covered read_covered(const json& entry, const std::string& where) {
  if (entry.is_string()) return {read_range(entry, where), std::nullopt};
  return {read_range(entry["range"], where), read_condition(entry["when"], where)};
}

}  // namespace

Check read_check_entry(const json& entry, const std::string& where) {
  Check check;
  check.id = entry["id"];
  check.source = entry["source"];
  check.rule = read_rule(entry, where);
  for (const json& part : entry["over"]) check.over.push_back(read_covered(part, where));
  const json& stored = entry["stored"];
  check.stored_at =
      static_cast<Address>(parse_hex(stored["at"].get<std::string>(), 0x7F).value_or(0));
  if (width(check) == 16 && !stored.contains("order"))
    refuse(where, "a 16-bit check needs the \"order\" of its two stored bytes",
           "low-first or high-first, by the byte at the lower address");
  check.order = read_order(stored.value("order", "high-first"));
  if (entry.contains("when")) check.when = read_condition(entry["when"], where);
  return check;
}

}  // namespace rtcmend
