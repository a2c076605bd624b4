#include <algorithm>
#include <catch2/catch.hpp>

#include "base/text.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

std::string manual() {
  const Workbench bench;
  const Ran ran = bench.run(std::vector<std::string>{"manual"});
  CHECK(ran.code == 0);
  CHECK(ran.err.empty());
  return ran.out;
}

/// What stands behind a macro, in the order of the page.
std::vector<std::string> behind(const std::string& page, const std::string& macro) {
  std::vector<std::string> found;
  for (const std::string_view line : lines(page))
    if (line.starts_with(macro + " ")) found.emplace_back(line.substr(macro.size() + 1));
  return found;
}

/// The page as groff prints it, on lines of 200 characters so that nothing is folded.
std::string rendered(const std::string& page) {
  Start start;
  start.program = "/usr/bin/env";
  start.arguments = {"groff", "-man", "-Tascii", "-P-cbou", "-ww", "-rLL=200n", "-rHY=0"};
  start.input = page;
  const Ran ran = run_program(start);
  CHECK(ran.code == 0);
  CHECK(ran.err.empty());
  return ran.out;
}

}  // namespace

TEST_CASE("the manual page has a man page's sections, in their order") {
  const std::string page = manual();
  CHECK(page.starts_with(".TH RTCMEND 1 \"\" \"rtcmend " RTCMEND_VERSION "\" \"User Commands\"\n"
                         ".SH NAME\nrtcmend \\- mend the memory of a PC clock chip\n"));
  CHECK(behind(page, ".SH") == std::vector<std::string>{"NAME", "SYNOPSIS", "DESCRIPTION",
                                                        "WHERE TO START", "CAUTIONS", "COMMANDS",
                                                        "EXIT STATUS", "ENVIRONMENT", "SEE ALSO"});
}

TEST_CASE("the manual page has a part for every command") {
  const std::string page = manual();
  CHECK(behind(page, ".SS") ==
        std::vector<std::string>{
            "show",    "verify",  "identify", "amend",      "seal",     "compose", "convert",
            "compare", "deliver", "capture",  "board",      "forecast", "explain", "sheet",
            "page",    "layouts", "drives",   "chips",      "plan",     "drift",   "history",
            "solve",   "trace",   "audit",    "completion", "manual"});
  CHECK(page.find(".SS manual\nthis program\\(aqs manual page.\n.PP\n"
                  ".nf\n.RS 4\nrtcmend manual [options]\n.RE\n.fi\n"
                  ".TP\n\\fB\\-\\-findings\\fR\nlist every kind of finding instead, in Markdown\n"
                  ".PP\nFor example:\n"
                  ".nf\n.RS 4\nrtcmend manual | man \\-l \\-\n.RE\n.fi\n") != std::string::npos);
  CHECK(page.find(".TP\n\\fB\\-o, \\-\\-output OUT\\fR\n"
                  "where to write; \\- is standard output\n") != std::string::npos);
}

TEST_CASE("nothing in the manual page is taken for a command of the page") {
  const std::string page = manual();
  const std::vector<std::string> macros = {".TH", ".SH", ".SS", ".PP", ".TP", ".B",
                                           ".I",  ".RI", ".nf", ".fi", ".RS", ".RE"};
  for (const std::string_view line : lines(page)) {
    INFO(line);
    CHECK_FALSE(line.empty());
    CHECK_FALSE(line.starts_with('\''));
    if (line.starts_with('.'))
      CHECK(std::count(macros.begin(), macros.end(), line.substr(0, line.find(' '))) == 1);
  }
  // groff_man_style(7): a tilde and an apostrophe by themselves become an accent and a quote.
  for (const char mark : {'~', '^', '`', '\''}) CHECK(page.find(mark) == std::string::npos);
  for (std::size_t at = page.find('\\'); at != std::string::npos; at = page.find('\\', at + 1))
    CHECK(std::string("-f(&e").find(page[at + 1]) != std::string::npos);
}

TEST_CASE("groff prints the manual page without a complaint, and every mark as it was") {
  const std::string text = rendered(manual());
  for (const std::string line :
       {"NAME\n       rtcmend - mend the memory of a PC clock chip\n",
        "SYNOPSIS\n       rtcmend COMMAND [options]\n", " --unsound-anyway.\n",
        "       I have nothing but codes on the screen:\n           rtcmend explain 161 163\n",
        "       Children\n              Keep coin cells out of their reach. ",
        "   verify\n       judge a dump: sound or not, and why.\n\n"
        "           rtcmend verify DUMP [options]\n\n",
        "       --again DUMP2\n"
        "              another dump of the same chip, any number of them: says which bytes waver\n",
        "              what is fitted in the machine, as JSON: {\"layout\": \"at\", "
        "\"clock\": \"now\",",
        "           rtcmend completion fish > ~/.config/fish/completions/rtcmend.fish\n",
        "       the script that completes rtcmend's words in a shell.\n",
        "       3      the file system refused; nothing was half-written\n",
        "ENVIRONMENT\n       NO_COLOR\n              When set, no colour, even on a terminal.\n"}) {
    INFO(line);
    CHECK(text.find(line) != std::string::npos);
  }
}
