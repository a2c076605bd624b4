#include "cli/run.h"

#include <csignal>
#include <cstdio>
#include <fmt/format.h>
#include <string>
#include <vector>

#include "base/error.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/print.h"

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

int dispatch(std::vector<std::string> arguments) {
  if (arguments.empty() || arguments[0] == "--help" || arguments[0] == "-h" ||
      (arguments[0] == "help" && arguments.size() == 1)) {
    print(guide());
    return exit_good;
  }
  if (arguments[0] == "--version") {
    print("rtcmend " RTCMEND_VERSION "\n");
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

void complain(const std::string& where, const std::string& what, const std::string& remedy) {
  std::string text = fmt::format("rtcmend: {}: {}\n", printable(where), printable(what));
  if (!remedy.empty()) text += fmt::format("try: {}\n", printable(remedy));
  print_aside(text);
}

}  // namespace

int run(int argc, const char* const* argv) {
  // A file-size limit shall come back as an error of write(), not as the end of the program.
  std::signal(SIGXFSZ, SIG_IGN);
  try {
    const int code = dispatch({argv + (argc > 0 ? 1 : 0), argv + argc});
    finish_printing();
    return code;
  } catch (const Error& error) {
    complain(error.where(), error.message(), error.remedy());
    return error.refusal() == Refusal::input ? exit_wrong_use : exit_file_system;
  } catch (const std::exception& error) {
    complain("rtcmend itself", error.what(), "this is a mistake in the program; please report it");
    return exit_wrong_use;
  }
}

}  // namespace rtcmend
