#include "terminal/compare.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "chip/registers.h"
#include "render/register_words.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

std::string byte_text(const std::optional<std::uint8_t>& byte, bool hidden) {
  if (!byte) return "??";
  return hidden ? "**" : hex2(*byte);
}

/// "register B: SET, 24/12"; what of a register differs. Empty for other bytes.
std::string register_text(const Difference& difference) {
  std::vector<std::string> bits;
  for (const NamedBits& named : register_bits())
    if (named.at == difference.at && difference.wanted && difference.found &&
        value_of(named, *difference.wanted) != value_of(named, *difference.found))
      bits.emplace_back(named.name);
  if (bits.empty()) return {};
  return fmt::format("register {:X}: {}", difference.at, join(bits, ", "));
}

std::string difference_line(const Difference& difference, const Layout& layout, const Ink& ink) {
  const bool hidden = layout.is_private(difference.at);
  std::string what = join(difference.fields, ", ");
  if (what.empty()) what = register_text(difference);
  if (!difference.ignored.empty()) what += (what.empty() ? "" : "; ") + difference.ignored;
  if (what.empty()) what = "nothing that the layout names";
  const std::string line = fmt::format("  {}  {:<6}  {:<5}  {}", hex2(difference.at),
                                       byte_text(difference.wanted, hidden),
                                       byte_text(difference.found, hidden), hanging(what, 21));
  return ink(difference.ignored.empty() ? Tone::bad : Tone::quiet, line) + "\n";
}

template <typename Belongs>
std::string section(const Comparison& comparison, const Layout& layout, std::string_view title,
                    const Ink& ink, const Belongs& belongs) {
  std::string text;
  for (const Difference& difference : comparison.differences)
    if (belongs(difference)) text += difference_line(difference, layout, ink);
  if (text.empty()) return text;
  return fmt::format("{}\n  at  wanted  found  belongs to\n{}", ink(Tone::strong, title), text);
}

}  // namespace

std::string compare_text(const Comparison& comparison, const Layout& layout, const Ink& ink) {
  const auto ignored = [](const Difference& difference) { return !difference.ignored.empty(); };
  const auto matters = [](const Difference& difference) { return difference.ignored.empty(); };
  const auto count = static_cast<std::size_t>(
      std::count_if(comparison.differences.begin(), comparison.differences.end(), matters));
  std::string text = comparison.equal
                         ? ink(Tone::good, "Equal in everything that matters.") + "\n"
                         : ink(Tone::bad, "Different") + ": " + counted(count, "byte") + " that " +
                               (count == 1 ? "matters" : "matter") + ".\n";
  if (comparison.lost == Lost::clock)
    text += "Only the clock and the century differ: it was reset, and the RAM was kept.\n";
  text += section(comparison, layout, "Matters", ink, matters);
  return text + section(comparison, layout, "Does not matter", ink, ignored);
}

namespace {

std::string lead(const Identification& identification, const Ink& ink) {
  if (identification.candidates.empty()) return "No layout fits.\n";
  std::string text =
      identification.clear.empty()
          ? "No layout is clearly ahead.\n"
          : fmt::format("The layout is {}.\n", ink(Tone::good, identification.clear));
  if (identification.mirrored)
    text += hanging(
                "The dump holds 64 bytes twice, as a 64-byte part gives them: they are taken "
                "once.",
                0) +
            "\n";
  return text;
}

/// A line for each family that says something, and one for all that say nothing.
std::string families(const Identification& identification) {
  const auto speaks = [](const FamilyWord& word) {
    return !word.trait.empty() || (word.tied.size() > 1 && word.score > 0);
  };
  std::size_t widest = 0;
  std::vector<std::string> silent;
  for (const FamilyWord& word : identification.families) {
    if (speaks(word))
      widest = std::max(widest, word.family.size());
    else if (word.open)
      silent.push_back(word.family);
  }
  std::string text;
  for (const FamilyWord& word : identification.families)
    if (speaks(word))
      text += fmt::format(
          "  {:<{}}  {}\n", word.family, widest,
          hanging(word.trait.empty() ? word.why : word.trait + ": " + word.why, widest + 4));
  if (!silent.empty())
    text +=
        hanging("Left out, because nothing in these bytes tells: " + join(silent, ", ") + ".", 0) +
        "\n";
  return text;
}

std::string tie(const Identification& identification) {
  if (identification.tied.empty()) return {};
  const std::string words = fmt::format(
      "The first {} are tied: the bytes do not tell them apart.{}", identification.tied.size(),
      identification.clear.empty() ? "" : " What the first says is true under all.");
  std::string text = hanging(words, 0) + "\n";
  for (const std::string& sentence : identification.settle)
    text += "  " + hanging(sentence, 2) + "\n";
  return text;
}

}  // namespace

std::string identify_text(const Identification& identification, const Ink& ink) {
  std::string text = lead(identification, ink);
  if (identification.candidates.empty()) return text;
  text += families(identification);
  std::size_t widest = std::string_view("layout").size();
  for (const Candidate& candidate : identification.candidates)
    widest = std::max(widest, candidate.layout.size());
  text += fmt::format("  {:<{}}  evidence in bits\n", "layout", widest);
  for (const Candidate& candidate : identification.candidates)
    text += fmt::format("  {:<{}} {:>7.1f}  {}\n", candidate.layout, widest, candidate.score,
                        hanging(candidate.why, widest + 12));
  return text + tie(identification);
}

}  // namespace rtcmend
