#include "cli/run.h"

#include <cstdio>
#include <fmt/format.h>
#include <optional>
#include <string>
#include <vector>

#include "base/error.h"
#include "base/system.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/completion.h"
#include "cli/first_steps.h"
#include "cli/print.h"
#include "terminal/advice.h"

namespace rtcmend {

namespace {

constexpr int exit_wrong_use = 2, exit_file_system = 3;

int run_command(const Command& command, std::vector<std::string> arguments) {
  Options options(std::string(command.name), std::string(command.summary));
  const Action act = command.set_up(options);
  if (!options.parse(std::move(arguments))) {
    print(options.help());
    return exit_good;
  }
  return act();
}

/// What the scripts of the shells ask for: one candidate a line, its help behind a tab, and
/// ":files" where a file's name fits too.
std::string completion_lines(std::vector<std::string> arguments) {
  arguments.erase(arguments.begin());
  const Completions found = complete(arguments);
  std::string text;
  for (const Completion& completion : found.words)
    text += printable(completion.word) + "\t" + printable(completion.help) + "\n";
  return found.files ? text + ":files\n" : text;
}

/// What is answered without a command; nothing when there is one.
std::optional<std::string> answer_at_once(const std::vector<std::string>& arguments) {
  if (arguments.empty()) return guide();
  const std::string& first = arguments[0];
  if (first == "--help" || first == "-h" || (first == "help" && arguments.size() == 1))
    return overview();
  if (first == "--version") return "rtcmend " RTCMEND_VERSION "\n";
  if (first == complete_word) return completion_lines(arguments);
  return std::nullopt;
}

int dispatch(std::vector<std::string> arguments) {
  if (const auto text = answer_at_once(arguments)) {
    print(*text);
    return exit_good;
  }
  if (arguments[0] == "help") return run_command(command_named(arguments[1]), {"--help"});
  if (arguments[0].starts_with('-'))
    refuse(arguments[0], "the command comes first, its options behind it",
           "rtcmend COMMAND --help");
  const Command& command = command_named(arguments[0]);
  arguments.erase(arguments.begin());
  return run_command(command, std::move(arguments));
}

void complain(const std::string& where, const std::string& what, const Advice& advice,
              const std::string& excerpt = {}) {
  std::string text = fmt::format("rtcmend: {}: {}\n", printable(where), printable(what));
  for (const std::string_view line : lines(excerpt))
    if (!line.empty()) text += printable(line) + "\n";
  if (!advice.empty()) text += fmt::format("try: {}\n", printable(try_text(advice)));
  print_aside(text);
}

/// What the core calls a choice is an option here.
std::string place_of(const Error& error) {
  return error.about_choice() ? "--" + error.where() : error.where();
}

}  // namespace

int run(int argc, const char* const* argv) {
  system::prepare_process();
  try {
    const int code = dispatch({argv + (argc > 0 ? 1 : 0), argv + argc});
    finish_printing();
    return code;
  } catch (const Error& error) {
    complain(place_of(error), error.message(), error.advice(), error.excerpt());
    return error.refusal() == Refusal::input ? exit_wrong_use : exit_file_system;
  } catch (const std::exception& error) {
    complain("rtcmend itself", error.what(), "this is a mistake in the program; please report it");
    return exit_wrong_use;
  }
}

}  // namespace rtcmend
