#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "check/check.h"
#include "chip/cautions.h"
#include "chip/registers.h"
#include "judge/credence.h"
#include "judge/misreads.h"
#include "judge/wires.h"

namespace rtcmend {

namespace {

// In a byte that is not zero, any one bit is set about once in four (bytes of sound images, chip
// and RAM together): its absence counts log2(4/3).
constexpr double absent_bit = 0.415;
// A register that lacks the bit in its usual value; a failed sum that bits lost in this line
// explain, which a damaged byte would do once in sixteen times.
constexpr double lacking_register = 3, explained_sum = 4;
constexpr double enough = 10;

std::vector<std::uint8_t> known_bytes(const Image& image) {
  std::vector<std::uint8_t> bytes;
  for (std::size_t i = 0; i < image.size(); ++i)
    if (const auto byte = image.at(static_cast<Address>(i))) bytes.push_back(*byte);
  return bytes;
}

bool always(const std::vector<std::uint8_t>& bytes, std::uint8_t mask, std::uint8_t value) {
  return std::all_of(bytes.begin(), bytes.end(),
                     [=](std::uint8_t byte) { return (byte & mask) == value; });
}

bool lacks(const Image& image, Address at, std::uint8_t usual, std::uint8_t mask) {
  return image.at(at) == static_cast<std::uint8_t>(usual & ~mask) && (usual & mask) != 0;
}

double lacking_registers(const Image& image, std::uint8_t mask) {
  double bits = 0;
  for (const auto& [at, usual] :
       {std::pair{reg::a, usual_a}, std::pair{reg::b, usual_b}, std::pair{reg::d, healthy_d}})
    if (lacks(image, at, usual, mask)) bits += lacking_register;
  return bits;
}

/// Whether a plain sum would hold if the line had swallowed the bit in some covered bytes, and in
/// none, one or both of the stored ones.
bool lost_bits_explain(const CheckResult& result, std::uint8_t mask) {
  const auto* sum = std::get_if<SumRule>(&result.check->rule);
  if (sum == nullptr || sum->width != 16 || sum->pairs || sum->sign != Sign::plain) return false;
  if (!result.unknown.empty() || result.blank || result.ok()) return false;
  const std::size_t most = covered_addresses(*result.check).size();
  for (const unsigned back : {0U, unsigned{mask}, unsigned{mask} << 8, unsigned{mask} * 0x101U}) {
    const unsigned short_by = (*result.stored + back - *result.computed) & 0xFFFFU;
    if (short_by % mask == 0 && short_by / mask <= most) return true;
  }
  return false;
}

bool any_sum_explained(const Image& image, std::span<const Layout> layouts, std::uint8_t mask) {
  for (const Layout& layout : layouts) {
    if (layout.size > image.size()) continue;
    for (const Check& check : layout.checks) {
      const CheckResult result = evaluate(check, image);
      if (result.counts && lost_bits_explain(result, mask)) return true;
    }
  }
  return false;
}

Finding stuck(unsigned bit, bool high, std::string why) {
  return {FindingKind::data_bit_stuck,
          {},
          fmt::format("Data bit {} is {} in every byte{}", bit, high ? 1 : 0, why),
          by_hand(fmt::format(
              "Look at the wire of {}: the contact in the socket, the reader's cable, a "
              "short to {}. Then dump again; the bytes as read cannot be repaired.",
              bus_pin(bit), high ? "the supply" : "ground")),
          "reasoned; registers and pins by DS12885"};
}

std::optional<Finding> stuck_at_1(const Image& image, unsigned bit) {
  const auto mask = static_cast<std::uint8_t>(1U << bit);
  if (!always(known_bytes(image), mask, mask)) return std::nullopt;
  return stuck(bit, true, ", also where the chip itself gives 0 (registers, clock).");
}

/// A bit that is never set happens in honest dumps too, so it takes evidence: many bytes that might
/// have had it, registers that must, and no check that says the bytes are right.
std::optional<Finding> stuck_at_0(const Image& image, unsigned bit,
                                  std::span<const Layout> layouts) {
  const auto mask = static_cast<std::uint8_t>(1U << bit);
  const auto bytes = known_bytes(image);
  if (!always(bytes, mask, 0)) return std::nullopt;
  const auto zeros = std::count(bytes.begin(), bytes.end(), std::uint8_t{0});
  const double held = proven_bits(image, layouts);
  if (held >= proven_right) return std::nullopt;
  double bits = absent_bit * static_cast<double>(static_cast<std::ptrdiff_t>(bytes.size()) - zeros);
  bits += lacking_registers(image, mask) - held;
  if (any_sum_explained(image, layouts, mask)) bits += explained_sum;
  if (bits < enough) return std::nullopt;
  return stuck(bit, false, ", where a sound dump would have it set in some.");
}

}  // namespace

std::vector<Finding> bits_stuck_at_1(const Image& image) {
  std::vector<Finding> findings;
  for (unsigned bit = 0; bit < 8; ++bit)
    if (auto finding = stuck_at_1(image, bit)) findings.push_back(std::move(*finding));
  return findings;
}

std::vector<Finding> bits_stuck_at_0(const Image& image, std::span<const Layout> layouts) {
  std::vector<Finding> findings;
  for (unsigned bit = 0; bit < 8; ++bit)
    if (auto finding = stuck_at_0(image, bit, layouts)) findings.push_back(std::move(*finding));
  return findings;
}

std::optional<Finding> absent_bits(const Image& image) {
  const auto bytes = known_bytes(image);
  std::uint8_t ever = 0;
  for (const std::uint8_t byte : bytes) ever = static_cast<std::uint8_t>(ever | byte);
  if (ever == 0xFF) return std::nullopt;
  std::vector<std::string> lines;
  for (unsigned bit = 0; bit < 8; ++bit)
    if ((ever >> bit & 1U) == 0) lines.push_back(fmt::format("{} ({})", bit, bus_pin(bit)));
  return Finding{FindingKind::data_bit_absent,
                 {},
                 fmt::format("No byte has data bit {} set, and no check says that this is right: a "
                             "line stuck at 0 looks the same.",
                             join(lines, ", or ")),
                 by_hand("Look at that wire, and dump again. When a second dump says the same, the "
                         "machine may simply have no such bit."),
                 "reasoned; pins by DS12885"};
}

}  // namespace rtcmend
