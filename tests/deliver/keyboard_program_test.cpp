#include <catch2/catch.hpp>

#include "base/error.h"
#include "base/text.h"
#include "deliver/old_machine.h"
#include "deliver/samples.h"
#include "deliver/slips.h"

namespace rtcmend::test {

namespace {

/// Enough for the decoder, the check and both passes several times over.
constexpr std::size_t patience = 200'000;

bool holds(const OldMachine& machine, const Image& wanted) {
  for (Address at = Image::ram_start; at < wanted.size(); ++at)
    if (wanted.known(at) && machine.chip.bytes[at] != wanted[at]) return false;
  return true;
}

/// A machine whose chip holds something else everywhere, and its memory and registers rubbish,
/// after the text of a keyboard program has run on it.
struct Attempt {
  OldMachine machine;
  explicit Attempt(const std::string& text, std::uint32_t seed = 1) {
    Dice dice(seed);
    Tiny8086& cpu = machine.cpu;
    cpu.load_com({reinterpret_cast<const std::uint8_t*>(text.data()), text.size()});
    machine.scramble(dice, text.size());
    std::fill(machine.chip.bytes.begin() + 0x0E, machine.chip.bytes.end(), std::uint8_t{0xEE});
    cpu.run(patience);
  }
};

std::string typed(const Parcel& parcel) {
  return deliver(parcel, Way::keyboard_program).content;
}

/// Positions of characters, line ends left out.
std::vector<std::size_t> positions(const std::string& text) {
  std::vector<std::size_t> all;
  for (std::size_t at = 0; at < text.size(); ++at)
    if (text[at] != '\r' && text[at] != '\n') all.push_back(at);
  return all;
}

/// The column of check letters on a typing sheet, from top to bottom.
std::string check_column(const std::string& sheet) {
  std::string letters;
  for (const std::string_view line : lines(sheet))
    if (line.size() > 76 && line.size() <= 80 &&
        ((line[1] >= '0' && line[1] <= '9') || trim(line).size() == 4))
      letters += line.substr(76);
  return letters;
}

void check_that_nothing_is_written(const std::string& text) {
  const Attempt attempt(text);
  CHECK(attempt.machine.chip.writes.empty());
}

}  // namespace

TEST_CASE("the keyboard program writes 64 and 128 bytes") {
  const Parcel parcel = GENERATE(at_64(), at_128(), crc_64(), balance_64());
  const auto seed = GENERATE(as<std::uint32_t>(), 1, 2, 3);
  const Delivery delivery = deliver(parcel, Way::keyboard_program);
  const Attempt attempt(delivery.content, seed);
  CHECK(holds(attempt.machine, parcel.image));
  CHECK(attempt.machine.exit_code == 0);
  CHECK(attempt.machine.guarded);
  CHECK(attempt.machine.other_writes == 0);
  CHECK(attempt.machine.chip.selected == 0x0D);
  CHECK_FALSE(attempt.machine.chip.nmi_masked);
  CHECK(attempt.machine.chip.bytes[0x04] == 0x12);
  CHECK(check_column(delivery.sheet).size() >= 30);
  CHECK(attempt.machine.screen == check_column(delivery.sheet) + "+");
}

TEST_CASE("the typing sheet fits 80 columns and shows every line of the text") {
  const Delivery delivery = deliver(at_128(), Way::keyboard_program);
  std::string typed_from_sheet;
  for (const std::string_view line : lines(delivery.sheet)) {
    CHECK(line.size() <= 80);
    if (line.size() < 6 || line[1] < '0' || line[1] > '9') continue;
    for (const char c : line.substr(4, 72))
      if (c != ' ') typed_from_sheet += c;
    typed_from_sheet += "\r\n";
  }
  CHECK(typed_from_sheet == delivery.content);
}

TEST_CASE("the keyboard program spoils a check byte first and sets it last") {
  const Attempt attempt(typed(at_64()));
  const auto& writes = attempt.machine.chip.writes;
  REQUIRE(writes.size() == 52);
  CHECK(writes.front() == std::pair<Address, std::uint8_t>{0x2E, 0xFF});
  CHECK(writes[1] == std::pair<Address, std::uint8_t>{0x0A, 0x26});
  CHECK(writes[50] == std::pair<Address, std::uint8_t>{0x2F, 0x6C});
  CHECK(writes[51] == std::pair<Address, std::uint8_t>{0x2E, 0x08});
}

TEST_CASE("the sheet's parts joined by COPY, which ends them with 1Ah, are the keyboard program") {
  const Parcel parcel = at_64();
  CHECK(holds(Attempt(typed(parcel) + "\x1A").machine, parcel.image));
  const std::string sheet = deliver(parcel, Way::keyboard_program).sheet;
  std::vector<std::string> commands;
  for (const std::string_view line : lines(sheet))
    if (line.starts_with("    COPY ") || line.starts_with("    (F6"))
      commands.emplace_back(trim(line));
  CHECK(commands == std::vector<std::string>{"COPY CON A", "(F6, then Enter)", "COPY CON B",
                                             "(F6, then Enter)", "COPY CON C", "(F6, then Enter)",
                                             "COPY A+B+C MEND.COM"});
}

TEST_CASE("a stretch of like bytes gives unlike letters in the keyboard program") {
  Parcel parcel = at_64();
  for (Address at = 0x30; at < 0x40; ++at) parcel.image.set(at, 0x00);
  const std::string text = typed(parcel);
  std::string letters;
  for (const std::string_view line : lines(text)) letters += line;
  for (std::size_t at = 64; at + 6 <= letters.size(); at += 2)
    CHECK(letters.substr(at, 2) + letters.substr(at, 2) != letters.substr(at + 2, 4));
}

TEST_CASE("the keyboard program takes at most 700 keystrokes for 50 RAM bytes") {
  CHECK(deliver(at_64(), Way::keyboard_program).keystrokes == 525);
}

TEST_CASE("the keyboard program is made of characters that every keyboard has") {
  const std::string text = typed(at_128());
  const auto all = lines(text);
  CHECK(all[0] == "X5wcPZ5sbP^(T2)T6(t8(T9(T;CABINFACEMAGICBEACON4FP^P_OO$<9rr9m!um");
  CHECK(text.substr(64, 2) == "\r\n");
  for (std::size_t i = 1; i < all.size(); ++i) {
    CHECK(all[i].size() <= 32);
    CHECK(all[i].find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") == std::string_view::npos);
  }
}

TEST_CASE("line ends may stand between any two pairs of the keyboard program") {
  const Parcel parcel = at_64();
  const std::string text = typed(parcel);
  const std::string first = text.substr(0, 66);
  std::string letters;
  for (const char c : text.substr(66))
    if (c >= 'A') letters += c;
  std::string broken = first;
  for (std::size_t at = 0; at < letters.size(); at += 10) broken += letters.substr(at, 10) + "\r\n";
  CHECK(holds(Attempt(broken).machine, parcel.image));
  CHECK(holds(Attempt(first + letters + "\r\n").machine, parcel.image));
}

TEST_CASE("one mistyped character of the keyboard program writes nothing, wherever it is",
          "[long][count]") {
  const Parcel parcel = GENERATE(at_64(), crc_64());
  const std::string text = typed(parcel);
  std::uint32_t random = 7;
  for (const std::size_t at : positions(text)) {
    const char right = text[at];
    for (int wrong = 0; wrong < 5; ++wrong) {
      std::string slip = text;
      do {
        random = random * 1664525 + 1013904223;
        const auto other = static_cast<char>('!' + (random >> 16) % 94);
        // The first is the neighbour in the alphabet, the second the other case, the rest anything.
        slip[at] = static_cast<char>(wrong == 0 ? right + 1 : wrong == 1 ? right ^ 0x20 : other);
      } while (wrong > 1 && slip[at] == right);
      INFO("position " << at << ": " << right << " became " << slip[at]);
      check_that_nothing_is_written(slip);
    }
  }
}

TEST_CASE("every wrong character at every place of the keyboard program", "[.][exhaustive]") {
  const Parcel parcel = GENERATE(at_64(), at_128(), crc_64());
  const std::string text = typed(parcel);
  for (const std::size_t at : positions(text))
    for (char wrong = ' '; wrong <= '~'; ++wrong) {
      if (wrong == text[at]) continue;
      std::string slip = text;
      slip[at] = wrong;
      INFO("position " << at << ": " << text[at] << " became " << wrong);
      check_that_nothing_is_written(slip);
    }
}

TEST_CASE("a character left out, doubled or swapped writes nothing", "[long]") {
  const std::string text = typed(at_64());
  for (const std::size_t at : positions(text)) {
    INFO("position " << at);
    std::string missing = text;
    missing.erase(at, 1);
    check_that_nothing_is_written(missing);
    std::string doubled = text;
    doubled.insert(at, 1, text[at]);
    // What follows the pair that ends the text is not read.
    if (at + 3 < text.size()) check_that_nothing_is_written(doubled);
    std::string swapped = text;
    std::swap(swapped[at], swapped[at + 1]);
    if (swapped != text && text[at + 1] != '\r') check_that_nothing_is_written(swapped);
  }
}

TEST_CASE("a line left out, typed twice or swapped with the next writes nothing") {
  const std::string text = typed(at_64());
  std::vector<std::string> all;
  for (const std::string_view line : lines(text)) all.push_back(std::string(line) + "\r\n");
  for (std::size_t i = 0; i + 1 < all.size(); ++i) {
    INFO("line " << i + 1);
    auto missing = all, doubled = all, swapped = all;
    missing.erase(missing.begin() + static_cast<std::ptrdiff_t>(i));
    doubled.insert(doubled.begin() + static_cast<std::ptrdiff_t>(i), all[i]);
    std::swap(swapped[i], swapped[i + 1]);
    for (const auto& wrong : {missing, doubled, swapped})
      check_that_nothing_is_written(join(wrong, ""));
  }
}

TEST_CASE("the letters that the keyboard program prints lead to the mistyped line") {
  const Delivery delivery = deliver(at_64(), Way::keyboard_program);
  const std::string right = check_column(delivery.sheet);
  std::string text = delivery.content;
  const std::size_t line_7 = 66 + 5 * 34;
  text[line_7 + 3] = text[line_7 + 3] == 'W' ? 'X' : 'W';
  const Attempt attempt(text);
  const std::string& shown = attempt.machine.screen;
  // Eight letters for line 1, two for each line behind it: line 7 has the nineteenth.
  REQUIRE(shown.size() >= 20);
  CHECK(shown.substr(0, 18) == right.substr(0, 18));
  CHECK(shown.substr(18, 2) != right.substr(18, 2));
  CHECK(shown.find('+') == std::string::npos);
  CHECK(shown.find('-') == std::string::npos);
}

namespace {

/// Whether the sheet's words lead to the line, counted from 0, when these letters were printed.
bool leads_to(std::size_t line, const std::string& shown, const std::string& right) {
  std::size_t same = 0;
  while (same < std::min(shown.size(), right.size()) && shown[same] == right[same]) ++same;
  if (same < 8) return line < 6;
  const std::size_t last = (right.size() - 8 + 1) / 2;
  if (same == right.size()) return line >= last || line < 6;
  const std::size_t first = (same - 8) / 2 + 1;
  return line == first || line + 1 == first;
}

}  // namespace

TEST_CASE("2,000 random slips of the keyboard program never write a wrong byte as right",
          "[long]") {
  const Parcel parcel = at_64();
  const Delivery delivery = deliver(parcel, Way::keyboard_program);
  const std::string right = check_column(delivery.sheet);
  Dice dice(27);
  std::size_t harmless = 0, led = 0;
  for (std::uint32_t i = 0; i < 2000; ++i) {
    const Slip slip = random_slip(delivery.content, dice);
    const Attempt attempt(slip.text, 1 + i % 50);
    INFO(slip.kind << " in line " << slip.line + 1 << "\n" << slip.text);
    // All letters and a plus sign, as the sheet says.
    if (attempt.machine.screen == right + "+") {
      CHECK(holds(attempt.machine, parcel.image));
      ++harmless;
    } else {
      CHECK(attempt.machine.chip.writes.empty());
      if (leads_to(slip.line, attempt.machine.screen, right)) ++led;
    }
  }
  CHECK(harmless == 29);
  CHECK(led == 1971);  // docs/figures.md
}

TEST_CASE("500 random slips of the keyboard program for a balance byte write nothing", "[long]") {
  const Parcel parcel = balance_64();
  const std::string right = typed(parcel);
  const std::string letters = check_column(deliver(parcel, Way::keyboard_program).sheet);
  Dice dice(29);
  for (std::uint32_t i = 0; i < 500; ++i) {
    const Slip slip = random_slip(right, dice);
    const Attempt attempt(slip.text, 1 + i % 50);
    INFO(slip.kind << " in line " << slip.line + 1 << "\n" << slip.text);
    if (attempt.machine.screen == letters + "+")
      CHECK(holds(attempt.machine, parcel.image));
    else
      CHECK(attempt.machine.chip.writes.empty());
  }
}

TEST_CASE("the keyboard program says when a byte did not take") {
  OldMachine machine;
  machine.chip.writable = false;
  machine.run_com(typed(at_64()), patience);
  CHECK(machine.screen.back() == '-');
}

TEST_CASE("the keyboard program can write the image's time") {
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::image;
  parcel.image.set(0x04, 0x21);
  OldMachine machine;
  machine.chip.bytes[0x0A] = 0x00;
  machine.run_com(typed(parcel), patience);
  CHECK(machine.chip.bytes[0x04] == 0x21);
  CHECK(machine.chip.bytes[0x0A] == 0x26);
  CHECK(machine.chip.bytes[0x0B] == 0x02);
  CHECK(machine.screen.back() == '+');
  CHECK(machine.chip.writes[0] == std::pair<Address, std::uint8_t>{0x2E, 0xFF});
  CHECK(machine.chip.writes[1] == std::pair<Address, std::uint8_t>{0x0B, 0x82});
  CHECK(machine.chip.writes.back() == std::pair<Address, std::uint8_t>{0x0B, 0x02});
}

TEST_CASE("bytes that the image does not know are not touched by the keyboard program") {
  Parcel parcel = at_64();
  parcel.image.forget(0x20);
  const Attempt attempt(typed(parcel));
  CHECK(attempt.machine.chip.bytes[0x20] == 0xEE);
  CHECK(holds(attempt.machine, parcel.image));
}

TEST_CASE("the keyboard program can neither ask for the time nor look first") {
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::ask;
  CHECK_THROWS_AS(deliver(parcel, Way::keyboard_program), Error);
  parcel = at_64();
  parcel.occasion = Occasion::when_lost;
  CHECK_THROWS_AS(deliver(parcel, Way::keyboard_program), Error);
}

}  // namespace rtcmend::test
