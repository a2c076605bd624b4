#include "cli/options.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

constexpr std::size_t help_column = 24;

/// The option that a parser's message is about, or nothing.
std::string option_in(std::string_view message) {
  for (const std::string& word : split(message, ' '))
    if (word.starts_with('-')) return word.substr(0, word.find(':'));
  return {};
}

/// "-o, --output FILE".
std::string left_of(const Declared& entry) {
  if (entry.is_word()) return entry.value;
  return join(entry.names, ", ") + (entry.takes_value() ? " " + entry.value : "");
}

}  // namespace

Options::Options(std::string command, std::string summary)
    : app_(std::make_unique<CLI::App>()),
      command_(std::move(command)),
      summary_(std::move(summary)) {
  app_->set_help_flag("-h,--help");
}

Options::~Options() = default;

void Options::list(const std::string& names, const std::string& value, const std::string& help) {
  const std::vector<std::string> spelled = split(names, ',');
  declared_.push_back({spelled, value, {}, help});
  names_.insert(names_.end(), spelled.begin(), spelled.end());
}

void Options::word(std::string& into, const std::string& name, const std::string& help) {
  app_->add_option(name, into)->required();
  words_ += " " + name;
  declared_.push_back({{}, name, {}, help});
}

void Options::optional_word(std::string& into, const std::string& name, const std::string& help) {
  app_->add_option(name, into);
  words_ += " [" + name + "]";
  declared_.push_back({{}, name, {}, help});
}

void Options::words(std::vector<std::string>& into, const std::string& name,
                    const std::string& help) {
  app_->add_option(name, into)->required();
  words_ += " " + name + " ...";
  declared_.push_back({{}, name, {}, help});
}

void Options::optional_words(std::vector<std::string>& into, const std::string& name,
                             const std::string& help) {
  app_->add_option(name, into);
  words_ += " [" + name + " ...]";
  declared_.push_back({{}, name, {}, help});
}

void Options::value(std::string& into, const std::string& names, const std::string& value,
                    const std::string& help) {
  app_->add_option(names, into)->option_text(value);
  list(names, value, help);
}

void Options::value(int& into, const std::string& names, const std::string& value,
                    const std::string& help) {
  app_->add_option(names, into);
  list(names, value, help);
}

void Options::value(double& into, const std::string& names, const std::string& value,
                    const std::string& help) {
  app_->add_option(names, into);
  list(names, value, help);
}

void Options::values(std::vector<std::string>& into, const std::string& names,
                     const std::string& value, const std::string& help) {
  app_->add_option(names, into)->allow_extra_args(false);
  list(names, value, help);
}

void Options::choice(std::string& into, const std::string& names,
                     const std::vector<std::string>& legal, const std::string& help) {
  const std::string option = split(names, ',').back();
  const auto check = [this, option, legal](const std::string& value) {
    if (std::find(legal.begin(), legal.end(), value) != legal.end()) return std::string();
    const auto near = nearest(value, legal);
    refuse(option, fmt::format("\"{}\" is not one of {}", printable(value), join(legal, ", ")),
           near.empty() ? more() : join(near, " or "));
  };
  app_->add_option(names, into)->check(CLI::Validator(check, "", "one of"));
  list(names, join(legal, "|"), help);
  declared_.back().legal = legal;
}

void Options::flag(bool& into, const std::string& names, const std::string& help) {
  app_->add_flag(names, into)->disable_flag_override();
  list(names, "", help);
  const std::vector<std::string> spelled = split(names, ',');
  flags_.insert(flags_.end(), spelled.begin(), spelled.end());
}

void Options::example(std::string line) {
  examples_.push_back(std::move(line));
}

std::string Options::usage() const {
  return fmt::format("rtcmend {}{} [options]", command_, words_);
}

std::string Options::more() const {
  return fmt::format("rtcmend {} --help", command_);
}

std::string Options::help() const {
  std::string text = fmt::format("rtcmend {}: {}\n\n  {}\n\n", command_, summary_, usage());
  for (const Declared& entry : declared_) {
    const std::string left = left_of(entry);
    text += "  " + left;
    text += left.size() + 4 > help_column ? "\n" + std::string(help_column, ' ')
                                          : std::string(help_column - 2 - left.size(), ' ');
    text += hanging(entry.help, help_column) + "\n";
  }
  if (!examples_.empty()) text += "\nFor example:\n";
  for (const std::string& line : examples_) text += "  " + line + "\n";
  return text;
}

bool Options::parse(std::vector<std::string> arguments) {
  // CLI11 takes the words from the end of the vector.
  std::reverse(arguments.begin(), arguments.end());
  try {
    app_->parse(arguments);
    return true;
  } catch (const CLI::CallForHelp&) {
    return false;
  } catch (const CLI::ExtrasError&) {
    const std::string extra = app_->remaining().front();
    if (!extra.starts_with('-'))
      refuse(command_, fmt::format("\"{}\" is one word too many", extra), usage());
    const auto near = nearest(extra.substr(0, extra.find('=')), names_);
    refuse(extra, fmt::format("{} has no such option", command_),
           near.empty() ? more() : join(near, " or "));
  } catch (const CLI::RequiredError& error) {
    const std::string message = error.what();
    refuse(message.substr(0, message.find(' ')), "it is needed, and was not given", usage());
  } catch (const CLI::ParseError& error) {
    refuse_value(error);
  }
}

void Options::refuse_value(const CLI::ParseError& error) const {
  const std::string option = option_in(error.what());
  if (dynamic_cast<const CLI::ConversionError*>(&error) != nullptr)
    refuse(option, "it takes a number", more());
  // CLI11 names a flag that was given a value without its dashes.
  const std::string word = split(error.what(), ' ').front();
  for (const std::string& flag : flags_)
    if (flag == "--" + word) refuse(flag, "it takes no value", more());
  refuse(option, "it takes one value, no more and no less", more());
}

}  // namespace rtcmend
