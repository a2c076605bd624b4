#include "check/rule.h"

#include <fmt/format.h>
#include <numeric>

#include "base/text.h"

namespace rtcmend {

namespace {

using Bytes = std::span<const std::uint8_t>;

template <typename... Cases>
struct Overloaded : Cases... {
  using Cases::operator()...;
};
template <typename... Cases>
Overloaded(Cases...) -> Overloaded<Cases...>;

std::uint16_t keep(unsigned width, std::uint32_t value) {
  return static_cast<std::uint16_t>(width == 8 ? value & 0xFFU : value & 0xFFFFU);
}

std::uint32_t add_bytes(Bytes bytes) {
  return std::accumulate(bytes.begin(), bytes.end(), std::uint32_t{0});
}

std::uint32_t add_pairs(Bytes bytes, Order order) {
  std::uint32_t sum = 0;
  for (std::size_t i = 0; i < bytes.size(); i += 2) {
    const std::uint32_t first = bytes[i];
    const std::uint32_t second = i + 1 < bytes.size() ? bytes[i + 1] : 0U;
    sum += order == Order::low_first ? first | second << 8 : first << 8 | second;
  }
  return sum;
}

std::uint32_t signed_as(Sign sign, std::uint32_t sum) {
  switch (sign) {
    case Sign::negated:
      return 0U - sum;
    case Sign::complemented:
      return ~sum;
    case Sign::plain:
      break;
  }
  return sum;
}

std::uint16_t finished(const SumRule& rule, std::uint32_t sum) {
  return keep(rule.width, signed_as(rule.sign, rule.start + sum));
}

std::uint16_t finished(const BalanceRule& rule, std::uint32_t sum) {
  return keep(8, rule.target - sum);
}

std::uint16_t compute_sum(const SumRule& rule, Bytes bytes) {
  return finished(rule, rule.pairs ? add_pairs(bytes, *rule.pairs) : add_bytes(bytes));
}

std::uint16_t compute_xor(const XorRule& rule, Bytes bytes) {
  std::uint8_t all = rule.start;
  for (const std::uint8_t byte : bytes) all ^= byte;
  return all;
}

std::string value_in_words(unsigned width, std::uint16_t value) {
  return width == 8 ? fmt::format("{:02X}h", value) : fmt::format("{:04X}h", value);
}

std::string describe_sum(const SumRule& rule) {
  std::string text = fmt::format("{}-bit sum", rule.width);
  if (rule.pairs)
    text += *rule.pairs == Order::low_first ? " of byte pairs, low byte first"
                                            : " of byte pairs, high byte first";
  if (rule.start != 0) text += ", starting from " + value_in_words(rule.width, rule.start);
  if (rule.sign != Sign::plain) text.append(", ").append(name(rule.sign));
  return text;
}

std::string describe_xor(const XorRule& rule) {
  if (rule.start == 0) return "all bytes xored";
  return "all bytes xored, starting from " + hex_prose(rule.start);
}

std::string describe_crc(const CrcModel& model) {
  return fmt::format("CRC-{}, polynomial {}", model.width, value_in_words(model.width, model.poly));
}

}  // namespace

unsigned width(const Rule& rule) {
  return std::visit(
      Overloaded{[](const SumRule& sum) { return sum.width; }, [](const XorRule&) { return 8U; },
                 [](const CrcRule& crc) { return crc.model.width; },
                 [](const BalanceRule&) { return 8U; }},
      rule);
}

std::string kind(const Rule& rule) {
  return std::visit(
      Overloaded{[](const SumRule&) { return "sum"; }, [](const XorRule&) { return "xor"; },
                 [](const CrcRule&) { return "crc"; },
                 [](const BalanceRule&) { return "balance"; }},
      rule);
}

std::string describe(const Rule& rule) {
  return std::visit(Overloaded{[](const SumRule& sum) { return describe_sum(sum); },
                               [](const XorRule& all) { return describe_xor(all); },
                               [](const CrcRule& crc) { return describe_crc(crc.model); },
                               [](const BalanceRule& balance) {
                                 return "byte that brings the 8-bit sum to " +
                                        hex_prose(balance.target);
                               }},
                    rule);
}

std::uint16_t compute(const Rule& rule, Bytes covered) {
  return std::visit(
      Overloaded{[&](const SumRule& sum) { return compute_sum(sum, covered); },
                 [&](const XorRule& all) { return compute_xor(all, covered); },
                 // At most 128 bytes: cheaper than a table, which would first run over 256.
                 [&](const CrcRule& crc) { return crc_bitwise(crc.model, covered); },
                 [&](const BalanceRule& balance) { return finished(balance, add_bytes(covered)); }},
      rule);
}

std::uint16_t compute_from_sum(const Rule& rule, std::uint32_t sum) {
  if (const auto* balance = std::get_if<BalanceRule>(&rule)) return finished(*balance, sum);
  return finished(std::get<SumRule>(rule), sum);
}

std::string_view name(Order order) {
  return order == Order::low_first ? "low-first" : "high-first";
}

std::string_view name(Sign sign) {
  switch (sign) {
    case Sign::negated:
      return "negated";
    case Sign::complemented:
      return "complemented";
    case Sign::plain:
      break;
  }
  return "plain";
}

}  // namespace rtcmend
