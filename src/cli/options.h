#pragma once

#include <memory>
#include <string>
#include <vector>

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace rtcmend {

/// A word or an option as it was declared, for the help, the manual and the completion.
struct Declared {
  std::vector<std::string> names;  ///< "-o", "--output"; empty for a word
  std::string value;               ///< "FILE", or the word's name; empty for a flag
  std::vector<std::string> legal;  ///< the few values that it may have; empty = any
  std::string help;

  bool is_word() const { return names.empty(); }
  bool takes_value() const { return !value.empty(); }
};

/// The words and options of one command. An option is declared where its value lives; what is not
/// given keeps the value that the variable has. The parser behind it (CLI11) takes seconds to
/// compile and is included by options.cpp alone.
class Options {
 public:
  Options(std::string command, std::string summary);
  ~Options();

  /// A word that must be given: "DUMP".
  void word(std::string& into, const std::string& name, const std::string& help);
  /// A word that may be left out.
  void optional_word(std::string& into, const std::string& name, const std::string& help);
  /// One word or more.
  void words(std::vector<std::string>& into, const std::string& name, const std::string& help);
  /// Any number of words, none included.
  void optional_words(std::vector<std::string>& into, const std::string& name,
                      const std::string& help);

  /// An option with a value: names "-o,--output", value "FILE".
  void value(std::string& into, const std::string& names, const std::string& value,
             const std::string& help);
  void value(int& into, const std::string& names, const std::string& value,
             const std::string& help);
  void value(double& into, const std::string& names, const std::string& value,
             const std::string& help);
  /// An option that may be given many times, with one value each time.
  void values(std::vector<std::string>& into, const std::string& names, const std::string& value,
              const std::string& help);
  /// An option whose value is one of a few words.
  void choice(std::string& into, const std::string& names, const std::vector<std::string>& legal,
              const std::string& help);
  /// An option without a value.
  void flag(bool& into, const std::string& names, const std::string& help);

  /// A command line that is worth copying, for the help.
  void example(std::string line);

  /// "rtcmend show DUMP [options]".
  std::string usage() const;
  /// All words and options in the order of their declaration.
  const std::vector<Declared>& declared() const { return declared_; }
  const std::vector<std::string>& examples() const { return examples_; }
  /// What --help prints.
  std::string help() const;
  /// Fills the variables in. False when --help was asked for. Throws Error (input) that names the
  /// option.
  bool parse(std::vector<std::string> arguments);

 private:
  void list(const std::string& names, const std::string& value, const std::string& help);
  /// Where the whole help stands.
  std::string more() const;
  [[noreturn]] void refuse_value(const CLI::ParseError& error) const;

  std::unique_ptr<CLI::App> app_;
  std::string command_;
  std::string summary_;
  std::string words_;  ///< the words as the usage line shows them: " DUMP [FOUND]"
  std::vector<Declared> declared_;
  std::vector<std::string> names_;  ///< every option name, for the nearest ones
  std::vector<std::string> flags_;  ///< those of them that take no value
  std::vector<std::string> examples_;
};

}  // namespace rtcmend
