#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>

#include "base/desktop.h"
#include "base/error.h"
#include "base/files.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/layout_file.h"
#include "cli/print.h"
#include "sheet/workbench_page.h"
#include "terminal/heading.h"

namespace rtcmend {

namespace {

struct PageOptions {
  DumpSource source;
  std::string output;
  bool open = false;
  bool force = false;
  Voice voice;

  bool has_dump() const { return !source.path.empty(); }
  /// Whether a file is written, rather than the page used where it lies.
  bool writes() const { return has_dump() || !output.empty(); }
};

constexpr std::string_view page_name = "rtcmend.html";

/// Where RTCMEND_PAGE says; or beside the program, as in an archive; or where a package puts it.
std::string page_of_this_program() {
  if (const char* told = std::getenv("RTCMEND_PAGE"); told != nullptr && *told != '\0') return told;
  const std::string folder = desktop::program_folder();
  // Where the system does not say where the program lies, what lies in the present folder is not
  // its.
  const std::vector<std::string> places =
      folder.empty() ? std::vector<std::string>{"/usr/share/rtcmend/"}
                     : std::vector<std::string>{folder, folder + "../share/rtcmend/"};
  for (const std::string& place : places) {
    const auto path = std::filesystem::path(place) / page_name;
    if (exists_already(path.string())) return path.lexically_normal().string();
  }
  refuse(std::string(page_name), "this program came without its page",
         "it is a file of every release, and lies beside the program; from the sources "
         "scripts/page.sh makes it");
}

OnThePage on_the_page(const PageOptions& given, const std::optional<Layout>& layout) {
  OnThePage on;
  const DumpSource& source = given.source;
  on.content = read_with_text(source).text;
  on.name = source.path == "-" ? "dump" : std::filesystem::path(source.path).filename().string();
  const ListingWords& words = source.listing;
  on.how = {{"form", source.form},  {"radix", words.radix},         {"width", words.width},
            {"order", words.order}, {"addresses", words.addresses}, {"at", words.at},
            {"size", words.size}};
  std::erase_if(on.how, [](const auto& one) { return one.second.empty(); });
  if (layout) {
    on.layout = layout->id;
    if (!layout->files.empty()) on.layout_file = layout_source(source.layout);
  }
  return on;
}

void tell(const PageOptions& given, const std::optional<Layout>& layout, const std::string& path) {
  Json json;
  json["page"] = path;
  json["written"] = given.writes();
  json["opened"] = given.open;
  std::string text = given.voice.json ? to_line(json) + "\n" : std::string();
  if (!given.voice.json && given.writes())
    text = fmt::format("Wrote {}: the workbench page{}. Nothing on it leaves the computer.\n",
                       printable(path), given.has_dump() ? " with the dump on it" : "");
  if (!given.voice.json && !given.writes())
    text = fmt::format("The workbench page is {}\n", printable(path));
  if (!given.voice.json) text += layout_mark(layout);
  if (!given.voice.json && !given.open) text += "Open it in a browser, or say --open as well.\n";
  if (path == "-")
    print_aside(text);
  else
    print(text);
}

/// A page that was written stays written: then it is no refusal.
void open_it(const std::string& path, bool written) {
  if (desktop::show_in_browser(path)) return;
  const std::string yourself = fmt::format("open {} in a browser yourself", path);
  if (!written) refuse("--open", "no browser could be started", yourself);
  print_aside(fmt::format("note: no browser could be started: {}\n", printable(yourself)));
}

int make_page(const PageOptions& given) {
  if (given.has_dump() && given.output.empty())
    refuse("-o", "a page with a dump on it is a file of its own, and needs a name",
           "-o bench.html");
  if (given.open && given.output == "-")
    refuse("--open", "what goes to standard output cannot be opened", "-o bench.html --open");
  WriteRules rules{given.force, inputs_of(given.source)};
  const auto layout = given_layout(given.source.layout);
  if (layout) rules.inputs.add(layout->files);
  const std::string found = page_of_this_program();
  rules.inputs.add({found});
  if (given.writes()) check_output(given.output, rules);
  const std::string path = given.writes() ? given.output : found;
  if (given.writes()) {
    constexpr std::size_t largest_page = 2 * 1000 * 1000;  // src/page/bundle.mjs makes none larger
    std::string page = read_whole(found, largest_page);
    if (given.has_dump()) page = page_with(page, on_the_page(given, layout));
    write_whole(path, page, rules);
  }
  tell(given, layout, path);
  if (given.open) open_it(path, given.writes());
  return exit_good;
}

}  // namespace

Action set_up_page(Options& options) {
  auto given = std::make_shared<PageOptions>();
  options.optional_word(given->source.path, "DUMP", "what lies on the page when it is opened");
  add_reading(options, given->source);
  options.value(given->output, "-o,--output", "OUT", "where to write; - is standard output");
  options.flag(given->open, "--open", "show it in the browser");
  options.flag(given->force, "--force", "replace OUT when it exists");
  add_voice(options, given->voice);
  options.example("rtcmend page --open");
  options.example("rtcmend page dump.bin -o bench.html --open");
  return [given] { return make_page(*given); };
}

}  // namespace rtcmend
