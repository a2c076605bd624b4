#include <catch2/catch.hpp>
#include <vector>

#include "forms/samples.h"

using namespace rtcmend;
using Catch::Matchers::Contains;

// A chip as it was typed, with the slips of a hand in it, and what must be said of each: where and
// what; what may have been meant; and the other slips of the file. Made by hand; the digits are
// those of samples.h.

namespace {

using Lines = std::vector<std::string>;

const Lines plain{"21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00",
                  "40 00 F0 00 41 80 02 80 01 27 00 00 00 00 00 00",
                  "00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 9B",
                  "80 01 19 00 41 42 20 43 20 7C 3E 23 3D 2E 2D 7F"};
const Lines letters{"!.X.........&.P.", "@...A....'......", "................", "....AB C |>#=.-."};

Lines with(const Lines& addresses, const std::string& before, const std::string& behind) {
  Lines lines;
  for (std::size_t i = 0; i < plain.size(); ++i)
    lines.push_back(addresses[i] + plain[i] + (before.empty() ? "" : before + letters[i] + behind));
  return lines;
}

const Lines short_addresses{"00: ", "10: ", "20: ", "30: "};
const Lines addressed = with(short_addresses, "", "");
const Lines with_text = with(short_addresses, "  ", "");
const Lines in_bars = with(short_addresses, "  |", "|");

std::string whole(const Lines& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

struct Edit {
  std::size_t line;  ///< counted from 1
  std::string from, to;
};

std::string edited(Lines lines, const std::vector<Edit>& edits) {
  for (const auto& [line, from, to] : edits) {
    std::string& text = lines.at(line - 1);
    text.replace(text.find(from), from.size(), to);
  }
  return whole(lines);
}

std::string long_addresses(const std::string& second) {
  return whole(with({"0000 ", second + " ", "0020 ", "0030 "}, "", ""));
}

struct Broken {
  const char* name;
  std::string text, said, remedy;
  Lines others;
  Form form;
};

std::vector<Broken> broken_listings() {
  return {
      {"15 bytes with addresses",
       edited(addressed, {{2, " 41 80", " 41"}}),
       "dump:2: row 10 has 15 bytes, and the others have 16",
       "a byte was lost; write ?? for one that cannot be read",
       {},
       Form::hex},
      {"17 bytes with addresses",
       edited(addressed, {{2, " 41 80", " 41 41 80"}}),
       "dump:2: row 10 has 17 bytes, and the others have 16",
       "a byte stands twice, or two rows ran together",
       {},
       Form::hex},
      {"15 bytes, text column",
       edited(with_text, {{2, " 41 80", " 41"}}),
       "dump:2: row 10 has 15 bytes, and the others have 16",
       "a byte was lost; write ?? for one that cannot be read",
       {},
       Form::hex},
      {"17 bytes, text column",
       edited(with_text, {{3, " 02 9B", " 02 02 9B"}}),
       "dump:3: row 20 has 17 bytes, and the others have 16",
       "a byte stands twice, or two rows ran together",
       {},
       Form::hex},
      {"15 bytes, text in bars",
       edited(in_bars, {{3, " 02 9B", " 9B"}}),
       "dump:3: row 20 has 15 bytes, and the others have 16",
       "a byte was lost; write ?? for one that cannot be read",
       {},
       Form::hex},
      {"17 bytes, text in bars",
       edited(in_bars, {{1, "21 00", "21 00 00"}}),
       "dump:1: row 00 has 17 bytes, and the others have 16",
       "a byte stands twice, or two rows ran together",
       {},
       Form::hex},
      {"15 bytes, no addresses",
       edited(plain, {{2, " 41 80", " 41"}}),
       "dump:2: this row has 15 bytes, and the others have 16",
       "a byte was lost; write ?? for one that cannot be read",
       {},
       Form::hex},
      {"17 bytes, no addresses",
       edited(plain, {{4, " 20 43", " 20 20 43"}}),
       "dump:4: this row has 17 bytes, and the others have 16",
       "a byte stands twice, or two rows ran together",
       {},
       Form::hex},
      {"15 in the first",
       edited(addressed, {{1, ": 21 00", ": 21"}}),
       "dump:1: row 00 has 15 bytes, and the others have 16",
       "a byte was lost; write ?? for one that cannot be read",
       {},
       Form::hex},
      {"two rows with 15",
       edited(addressed, {{2, " 41 80", " 41"}, {3, " 02 9B", " 9B"}}),
       "dump:2: row 10 has 15 bytes, and the others have 16",
       "a byte was lost; write ?? for one that cannot be read",
       {"line 3, column 49: row 20 has 15 bytes, and the others have 16; a byte was lost; write ?? "
        "for one that cannot be read"},
       Form::hex},
      {"letter O in byte",
       edited(addressed, {{2, "40 00", "4O 00"}}),
       "dump:2: \"4O\" is not hex",
       "byte 1 of the row: did you mean 40?",
       {},
       Form::hex},
      {"letter l",
       edited(addressed, {{2, " 01 27", " 0l 27"}}),
       "dump:2: \"0l\" is not hex",
       "byte 9 of the row: did you mean 01?",
       {},
       Form::hex},
      {"letter I",
       edited(addressed, {{4, " 19", " I9"}}),
       "dump:4: \"I9\" is not hex",
       "byte 3 of the row: did you mean 19?",
       {},
       Form::hex},
      {"letter S",
       edited(addressed, {{1, " 58", " S8"}}),
       "dump:1: \"S8\" is not hex",
       "byte 3 of the row: did you mean 58?",
       {},
       Form::hex},
      {"letter Z",
       edited(addressed, {{2, " 27", " Z7"}}),
       "dump:2: \"Z7\" is not hex",
       "byte 10 of the row: did you mean 27?",
       {},
       Form::hex},
      {"letter o lower",
       edited(addressed, {{2, "F0", "Fo"}}),
       "dump:2: \"Fo\" is not hex",
       "byte 3 of the row: did you mean F0?",
       {},
       Form::hex},
      {"letter O, text column",
       edited(with_text, {{2, "40 00", "4O 00"}}),
       "dump:2: \"4O\" is not hex",
       "byte 1 of the row: did you mean 40?",
       {},
       Form::hex},
      {"letter O, no addresses",
       edited(plain, {{2, "40 00", "4O 00"}}),
       "dump:2: \"4O\" is not hex",
       "byte 1 of the row: did you mean 40?",
       {},
       Form::hex},
      {"letter like none",
       edited(addressed, {{2, "40 00", "4X 00"}}),
       "dump:2: \"4X\" is not hex",
       "byte 1 of the row: bytes are two hex digits each, ?? for an unknown one",
       {},
       Form::hex},
      {"bang",
       edited(addressed, {{4, " 01 19", " 0! 19"}}),
       "dump:4: \"0!\" is not hex",
       "byte 2 of the row: did you mean 01?",
       {},
       Form::hex},
      {"three letters in one go",
       edited(addressed, {{1, " 58", " S8"}, {2, " 01 27", " 0l 27"}, {4, " 19", " I9"}}),
       "dump:1: \"S8\" is not hex",
       "byte 3 of the row: did you mean 58?",
       {"line 2, column 29: \"0l\" is not hex; byte 9 of the row: did you mean 01?",
        "line 4, column 11: \"I9\" is not hex; byte 3 of the row: did you mean 19?"},
       Form::hex},
      {"letters in one row",
       edited(addressed, {{2, "40 00", "4O OO"}}),
       "dump:2: \"4O\" is not hex",
       "byte 1 of the row: did you mean 40?",
       {"line 2, column 8: \"OO\" is not hex; byte 2 of the row: did you mean 00?"},
       Form::hex},
      {"address 1O",
       edited(addressed, {{2, "10:", "1O:"}}),
       "dump:2: \"1O\" is no address",
       "did you mean 10?",
       {},
       Form::hex},
      {"address IO",
       edited(addressed, {{2, "10:", "IO:"}}),
       "dump:2: \"IO\" is no address",
       "did you mean 10?",
       {},
       Form::hex},
      {"address 3o",
       edited(addressed, {{4, "30:", "3o:"}}),
       "dump:4: \"3o\" is no address",
       "did you mean 30?",
       {},
       Form::hex},
      {"address OO",
       edited(addressed, {{1, "00:", "OO:"}}),
       "dump:1: \"OO\" is no address",
       "did you mean 00?",
       {},
       Form::hex},
      {"address x0",
       edited(addressed, {{3, "20:", "x0:"}}),
       "dump:3: \"x0\" is no address",
       "by the rows around it, it is 20",
       {},
       Form::hex},
      {"address IB singly",
       "1A: 00\nIB: 33\n1C: 22\n",
       "dump:2: \"IB\" is no address",
       "did you mean 1B?",
       {},
       Form::hex},
      {"address lO singly",
       "0F: 00\nlO: 40\n11: 00\n",
       "dump:2: \"lO\" is no address",
       "did you mean 10?",
       {},
       Form::hex},
      {"address out of step by look-alike",
       edited(addressed, {{3, "20:", "28:"}}),
       "dump:3: the address 28 does not stand between 10 and 30",
       "did you mean 20?",
       {},
       Form::hex},
      {"address of a place that is free",
       edited(addressed, {{3, "20:", "70:"}}),
       "dump:3: the address 70 does not stand between 10 and 30",
       "did you mean 20?",
       {},
       Form::hex},
      {"address twice",
       edited(addressed, {{3, "20:", "10:"}}),
       "dump:3: the address 10 does not stand between 10 and 30",
       "did you mean 20?",
       {},
       Form::hex},
      {"address of text column IO",
       edited(with_text, {{2, "10:", "IO:"}}),
       "dump:2: \"IO\" is no address",
       "did you mean 10?",
       {},
       Form::hex},
      {"address 4 digits",
       long_addresses("001O"),
       "dump:2: \"001O\" is no address",
       "did you mean 0010?",
       {},
       Form::hex},
      {"address digit lost",
       edited(addressed, {{2, "10:", "1:"}}),
       "dump:2: the address \"1\" does not have as many digits as the others",
       "did you mean 10?",
       {},
       Form::hex},
      {"digit lost",
       edited(addressed, {{2, "F0", "F"}}),
       "dump:2: \"F\" has an odd number of hex digits",
       "byte 3 of the row: one was lost; a byte is two digits",
       {},
       Form::hex},
      {"digit twice",
       edited(addressed, {{2, "F0", "FF0"}}),
       "dump:2: \"FF0\" has an odd number of hex digits",
       "byte 3 of the row: one stands twice, or a blank was lost; a byte is two digits",
       {},
       Form::hex},
      {"digit lost, text",
       edited(with_text, {{3, " 9B", " 9"}}),
       "dump:3: \"9\" has an odd number of hex digits",
       "byte 16 of the row: one was lost; a byte is two digits",
       {},
       Form::hex},
      {"digit lost, plain",
       edited(plain, {{3, " 9B", " 9"}}),
       "dump:3: \"9\" has an odd number of hex digits",
       "byte 16 of the row: one was lost; a byte is two digits",
       {},
       Form::hex},
      {"digit lost and address",
       edited(addressed, {{2, "10:", "1O:"}, {3, " 9B", " 9"}}),
       "dump:2: \"1O\" is no address",
       "did you mean 10?",
       {"line 3, column 50: \"9\" has an odd number of hex digits; byte 16 of the row: one was "
        "lost; a byte is two digits"},
       Form::hex},
      {"row and letter",
       edited(addressed, {{2, " 41 80", " 41"}, {4, " 19", " I9"}}),
       "dump:2: row 10 has 15 bytes, and the others have 16",
       "a byte was lost; write ?? for one that cannot be read",
       {"line 4, column 11: \"I9\" is not hex; byte 3 of the row: did you mean 19?"},
       Form::hex},
      {"session: no value",
       "o 70 10\ni 71\no 70 11\ni 71\n00\n",
       "dump:3: the value that i 71 showed is missing above this line",
       "put it there, or leave out the i 71",
       {},
       Form::hex},
      {"session: no i 71",
       "o 70 10\ni 71\n40\no 70 11\n00\n",
       "dump:5: \"00\" answers no i 71",
       "the line above a value must be i 71",
       {},
       Form::hex},
      {"session: no o 70",
       "i 71\n40\no 70 11\ni 71\n00\n",
       "dump:1: port 71 is read, but no o 70 before it says which byte that is",
       "",
       {},
       Form::hex},
      {"session: select without read",
       "o 70 10\no 70 11\ni 71\n00\n",
       "dump:2: byte 10h was selected above, and nothing read it",
       "put i 71 and its value above this line, or leave out that o 70",
       {},
       Form::hex},
      {"session: letter",
       "o 70 10\ni 71\n4O\no 70 11\ni 71\n00\n",
       "dump:3: \"4O\" is not hex",
       "did you mean 40?",
       {},
       Form::hex},
      {"session: writes",
       "o 70 10\no 71 40\no 70 11\ni 71\n00\n",
       "dump:2: the session writes to port 71, so what it read may no longer hold",
       "give a session that only reads the chip",
       {},
       Form::hex},
      {"session: value at end",
       "o 70 10\ni 71\n40\no 70 11\ni 71\n",
       "dump:5: the value that i 71 showed is missing above this line",
       "put it there, or leave out the i 71",
       {},
       Form::hex},
      {"session: two in one go",
       "o 70 10\ni 71\no 70 11\n00\no 70 12\ni 71\nF0\n",
       "dump:3: the value that i 71 showed is missing above this line",
       "put it there, or leave out the i 71",
       {"dump:4: \"00\" answers no i 71; the line above a value must be i 71"},
       Form::hex},
      {"unknown form among rows",
       "00: 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00\nten: 40 00 F0\n20: 00 00 00 00 00 00 "
       "00 00 00 00 00 00 00 00 02 9B\n30: 80 01 19 00 41 42 20 43 20 7C 3E 23 3D 2E 2D 7F\n",
       "dump:2: \"ten: 40 00 F0\" is no row like the others",
       "each of them has an address and 16 bytes",
       {},
       Form::hex},
      {"hash rows",
       "00: 21 00 58 00 05 00 05 15 02 94 26 02 50 80 00 00\n10 -> forty\n20: 00 00 00 00 00 00 00 "
       "00 00 00 00 00 00 00 02 9B\n30: 80 01 19 00 41 42 20 43 20 7C 3E 23 3D 2E 2D 7F\n",
       "dump:2: \"10 -> forty\" is no row like the others",
       "each of them has an address and 16 bytes",
       {},
       Form::hex},
      {"rows: a letter",
       "10: 27 13 4O 00 00 00 00 00 00 00 00 00 00 00 24 8E =A1\n",
       "dump:1: row 10h has a letter in place of a digit",
       "O at 12h is likely 0; with that the row fits its code",
       {},
       Form::rows},
      {"rows: 15",
       "10: 27 13 00 00 00 00 00 00 00 00 00 00 00 24 8E =A1\n",
       "dump:1: row \"10\" has 15 bytes, and a row has 16",
       "a byte was left out or copied twice; write ?? for one that cannot be read",
       {},
       Form::rows},
      {"rows: no code",
       "10: 27 13 40 00 00 00 00 00 00 00 00 00 00 00 24 8E =A1\n20: 27 13 40 00 00 00 00 00 00 00 "
       "00 00 00 00 24 8E\n",
       "dump:2: row \"20\" has no code",
       "Each row ends in = and two digits; without codes it is hex text.",
       {},
       Form::rows},
      {"rows: address",
       "1O: 27 13 40 00 00 00 00 00 00 00 00 00 00 00 24 8E =A1\n",
       "dump:1: row 10h has a letter in place of a digit",
       "O at the row address is likely 0; with that the row fits its code",
       {},
       Form::rows},
      {"rows: half a byte",
       "10: 27 13 4? 00 00 00 00 00 00 00 00 00 00 00 24 8E =A1\n",
       "dump:1: \"4?\" at 12h is half a byte",
       "write ?? for a byte that cannot be read whole",
       {},
       Form::rows},
  };
}

}  // namespace

TEST_CASE("the listings that are broken below are read as long as they are whole") {
  for (const Lines& lines : {plain, addressed, with_text, in_bars})
    CHECK(read_dump(whole(lines), "dump", Form::hex).image == sample_64());
  CHECK(read_dump(long_addresses("0010"), "dump", Form::hex).image == sample_64());
}

TEST_CASE(
    "each of fifty broken listings is refused with its slips, where they are and what was meant") {
  const std::vector<Broken> all = broken_listings();
  CHECK(all.size() >= 50);
  for (const Broken& broken : all) {
    INFO(broken.name);
    try {
      read_dump(broken.text, "dump", broken.form);
      FAIL_CHECK("it was read");
    } catch (const Error& error) {
      CHECK(std::string(error.what()) == broken.said);
      CHECK(error.remedy() == broken.remedy);
      CHECK((error.excerpt().find("slips in all") != std::string::npos) == !broken.others.empty());
      for (const std::string& other : broken.others)
        CHECK_THAT(error.excerpt(), Contains("\n  " + other));
    }
  }
}
