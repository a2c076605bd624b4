#include "terminal/heading.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "render/words.h"
#include "terminal/columns.h"
#include "terminal/findings.h"

namespace rtcmend {

namespace {

constexpr std::size_t word_width = 10;

/// The end of a long name is what tells files apart.
std::string shortened(std::string name) {
  constexpr std::size_t longest = 60;
  if (name.size() <= longest) return name;
  return "..." + name.substr(name.size() - longest + 3);
}

}  // namespace

std::string tab(const std::string& name, const Ink& ink) {
  const std::string label = shortened(printable(name));
  const std::size_t beside = page_width - 6 - std::min(label.size(), page_width - 6);
  return " ." + std::string(label.size() + 2, '-') + ".\n-' " + ink(Tone::strong, label) + " '" +
         std::string(beside, '-') + "\n";
}

std::string heading_line(std::string_view word, std::string_view text) {
  return fmt::format("  {:<{}} {}\n", word, word_width, hanging(text, word_width + 3));
}

std::string layout_mark(const Layout& layout) {
  const std::string sentence = whose_word(layout);
  return sentence.empty() ? sentence : hanging(sentence, 0) + "\n";
}

std::string layout_mark(const std::optional<Layout>& layout) {
  return layout ? layout_mark(*layout) : std::string();
}

std::string heading(const Card& card, const Ink& ink) {
  std::string text = tab(card.name, ink);
  text += heading_line("layout", layout_words(card.layout));
  text += heading_line("dump", dump_words(card.dump, card.layout));
  if (!card.dump.note.empty()) text += heading_line("note", card.dump.note);
  text += fmt::format(
      "  {:<{}} {}\n", "verdict", word_width,
      verdict(card.examination.standing, card.examination.findings, ink, word_width + 3));
  return text;
}

}  // namespace rtcmend
