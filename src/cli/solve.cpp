#include "discover/solve.h"

#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/patience.h"
#include "cli/print.h"
#include "cli/search_options.h"
#include "discover/stirring.h"
#include "render/solution_json.h"
#include "terminal/solution.h"

namespace rtcmend {

namespace {

struct SolveOptions {
  std::vector<std::string> paths, idle;
  std::string form;
  SearchOptions search;
  Voice voice;
};

std::vector<Image> read_all(const std::vector<std::string>& paths, const std::string& form) {
  std::vector<Image> images;
  for (const std::string& path : paths) images.push_back(read_dump_from(path, form).image);
  return images;
}

Solution search(const std::vector<Image>& images, const Question& question) {
  Patience patience;
  return solve(images, question, patience.watch());
}

int solve_dumps(const SolveOptions& given) {
  Question question = question_from(given.search);
  std::vector<Image> images = read_all(given.idle, given.form);
  question.restless = bytes_that_differ(images);
  for (Image& image : read_all(given.paths, given.form)) images.push_back(std::move(image));
  std::vector<std::string> names = given.idle;
  names.insert(names.end(), given.paths.begin(), given.paths.end());
  const Solution solution = search(images, question);
  if (given.voice.json)
    print_json(solution_json(solution));
  else
    print(solution_text(solution, given.voice.ink(), names));
  const bool clean = solution.complete && !solution.odd;
  return solution.decided() && clean ? exit_good : exit_bad;
}

}  // namespace

Action set_up_solve(Options& options) {
  auto given = std::make_shared<SolveOptions>();
  options.words(given->paths, "DUMP",
                "good dumps of one machine, taken after different settings were saved");
  options.values(given->idle, "--idle", "DUMP",
                 "one of two or more taken with nothing changed: what differs between them moves "
                 "by itself and proves nothing; may be repeated");
  options.value(given->form, "--form", "FORM", "how they are written down; detected when left out");
  add_search(options, given->search);
  add_voice(options, given->voice);
  options.example("rtcmend solve one.bin two.bin three.bin four.bin");
  options.example("rtcmend solve one.bin two.bin --kind sum --at 2E");
  return [given] { return solve_dumps(*given); };
}

}  // namespace rtcmend
