#include "cli/manual.h"

#include <fmt/format.h>
#include <memory>

#include "base/text.h"
#include "chip/cautions.h"
#include "cli/commands.h"
#include "cli/first_steps.h"
#include "cli/print.h"
#include "terminal/finding_list.h"

namespace rtcmend {

namespace {

/// Text as man(1) takes it: a backslash, a dash, the marks that it would print as accents and
/// quotes, and a control character at the start of a line mean something there.
std::string plain(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    if (c == '\\')
      safe += "\\e";
    else if (c == '-')
      safe += "\\-";
    else if (c == '~')
      safe += "\\(ti";
    else if (c == '\'')
      safe += "\\(aq";
    else
      safe += c;
  }
  if (safe.starts_with('.')) safe.insert(0, "\\&");
  return safe;
}

std::string section(std::string_view title) {
  return fmt::format(".SH {}\n", title);
}

std::string code(std::string_view line) {
  return fmt::format(".nf\n.RS 4\n{}\n.RE\n.fi\n", plain(line));
}

std::string item(std::string_view left, std::string_view text) {
  return fmt::format(".TP\n\\fB{}\\fR\n{}\n", plain(left), plain(text));
}

std::string declared_item(const Declared& entry) {
  if (entry.is_word()) return item(entry.value, entry.help);
  return item(join(entry.names, ", ") + (entry.takes_value() ? " " + entry.value : ""), entry.help);
}

std::string command_text(const Command& command) {
  Options options(std::string(command.name), std::string(command.summary));
  command.set_up(options);
  std::string text = fmt::format(".SS {}\n{}.\n", command.name, plain(command.summary));
  text += ".PP\n" + code(options.usage());
  for (const Declared& entry : options.declared()) text += declared_item(entry);
  text += ".PP\nFor example:\n";
  for (const std::string& line : options.examples()) text += code(line);
  return text;
}

std::string situations_text() {
  std::string text;
  for (const Situation& situation : situations())
    text += fmt::format(".PP\n{}:\n{}", plain(situation.words), code(situation.command));
  return text;
}

std::string commands_text() {
  std::string text;
  for (const Command& command : commands()) text += command_text(command);
  return text;
}

std::string cautions_text() {
  std::string text;
  for (const Caution& caution : bench_cautions()) text += item(caution.topic, caution.text);
  return text + ".PP\n" + plain(cautions_limit()) + "\n";
}

constexpr std::string_view exit_codes =
    ".TP\n\\fB0\\fR\ndone, and sound or equal\n"
    ".TP\n\\fB1\\fR\ndone, but not sound or different\n"
    ".TP\n\\fB2\\fR\nwrong use or bad input; nothing was written\n"
    ".TP\n\\fB3\\fR\nthe file system refused; nothing was half\\-written\n";

}  // namespace

std::string manual_page() {
  std::string text =
      fmt::format(".TH RTCMEND 1 \"\" \"rtcmend {}\" \"User Commands\"\n", RTCMEND_VERSION);
  text += section("NAME") + "rtcmend \\- mend the memory of a PC clock chip\n";
  text += section("SYNOPSIS") + ".B rtcmend\n.I COMMAND\n.RI [ options ]\n";
  text += section("DESCRIPTION") +
          "A PC of the AT class keeps its settings in 64 or 128 bytes of a clock chip, fed by a "
          "cell. rtcmend reads a dump of them in nearly any form, says what the bytes mean and "
          "what is wrong with them, changes them by name, makes every check right again, and hands "
          "the image back in the form that the way into the machine needs. Nothing is written over "
          "without \\-\\-force, and nothing unsound without \\-\\-unsound\\-anyway.\n";
  text += section("WHERE TO START") + situations_text();
  text += section("CAUTIONS") + cautions_text();
  text += section("COMMANDS") + commands_text();
  text += section("EXIT STATUS") + std::string(exit_codes);
  text += section("ENVIRONMENT") + item("NO_COLOR", "When set, no colour, even on a terminal.") +
          item("RTCMEND_PAGE", "The workbench page, where it does not lie beside the program.") +
          item("RTCMEND_LAYOUTS",
               "The folder of your own layouts (rtcmend layouts add); "
               "rtcmend/layouts in the data folder when not set.") +
          item("BROWSER", "What page --open starts; xdg-open when not set.");
  return text + section("SEE ALSO") +
         "rtcmend\\-handbook(7): from the first hour with a dead machine to writing a layout.\n";
}

Action set_up_manual(Options& options) {
  auto findings = std::make_shared<bool>(false);
  options.flag(*findings, "--findings", "list every kind of finding instead, in Markdown");
  options.example("rtcmend manual | man -l -");
  options.example("rtcmend manual --findings > findings.md");
  return [findings] {
    print(*findings ? finding_list() : manual_page());
    return exit_good;
  };
}

}  // namespace rtcmend
