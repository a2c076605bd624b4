#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace rtcmend::test {

/// A person is asked something that the test has no answer for, or waits for ever: no error of
/// BASIC.
struct NobodyAnswers : std::logic_error {
  using std::logic_error::logic_error;
};

/// The BASIC of the time, as much of it as listings for the clock chip need: integers of 16 bits
/// under DEFINT A-Z, strings, FOR, GOSUB, IF THEN ELSE, DATA, INPUT, OUT, INP and ON ERROR. The
/// order of operations is the one of GW-BASIC: * and / before \ before MOD before + and -,
/// comparisons, NOT, AND, OR, XOR. Lines are taken as they are typed: sorted by their numbers, a
/// later one in place of an earlier one of the same number, small letters as capitals, one without
/// a number forgotten. Anything else, and whatever that BASIC reports as an error, goes where ON
/// ERROR says, or throws std::runtime_error.
class SmallBasic {
 public:
  explicit SmallBasic(const std::string& listing);

  std::function<int(int port)> on_in;
  std::function<void(int port, int value)> on_out;
  int columns = 80;                  ///< of the screen, as the firmware keeps it at 40h:4Ah
  std::vector<std::string> answers;  ///< to INPUT, in order
  std::string screen;
  std::map<std::string, std::string> files;  ///< written with OPEN FOR OUTPUT and PRINT #1

  /// From the first line to END.
  void run();

 private:
  struct Spot {
    std::map<int, std::string>::const_iterator line;
    std::size_t at = 0;
  };
  struct Loop {
    std::string variable;
    int limit = 0, step = 1;
    Spot body;
  };
  struct Value {
    bool is_text = false;
    int number = 0;
    std::string text;
  };

  bool statement();
  void on_error(const std::runtime_error& error);
  void let();
  void print();
  void input();
  void if_then();
  void for_loop();
  void next();
  void dim();
  void read();
  void open();
  void go_to(int line);
  void skip_line();

  Value expression(int level = 0);
  Value operand();
  int number();
  std::string text();
  Value arguments_of(const std::string& function);

  char peek();
  bool take(const std::string& word);
  void need(const std::string& word);
  std::string name();
  int whole_number();
  void assign(const std::string& variable, const Value& value);
  int& element(const std::string& array);
  [[noreturn]] void fail(const std::string& what) const;

  std::map<int, std::string> program_;
  Spot spot_;
  std::vector<Spot> returns_;
  std::vector<Loop> loops_;
  std::vector<std::string> data_;
  std::size_t next_data_ = 0, next_answer_ = 0;
  std::map<std::string, int> numbers_;
  std::map<std::string, std::string> texts_;
  std::map<std::string, std::vector<int>> arrays_;
  std::string file_;
  int segment_ = 0;                   ///< DEF SEG
  int handler_ = 0, error_line_ = 0;  ///< ON ERROR GOTO; ERL
  bool handling_ = false;
};

}  // namespace rtcmend::test
