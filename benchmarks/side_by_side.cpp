// side_by_side ROUNDS TIMES BASELINE... -- COMMAND... : runs two commands in turn, ROUNDS rounds of
// TIMES each, their output thrown away, and prints for each and for their ratio: wall time and
// processor time (user + system) of the best round, in seconds a run, and the largest memory in
// KiB. The best round is the one that other work on the machine disturbed least.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <limits>
#include <string>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace {

struct Cost {
  double wall = std::numeric_limits<double>::max();
  double processor = std::numeric_limits<double>::max();
  long memory = 0;
};

double seconds(const timeval& time) {
  return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
}

[[noreturn]] void become(const std::vector<char*>& words) {
  const int nowhere = ::open("/dev/null", O_RDWR);
  ::dup2(nowhere, STDIN_FILENO);
  ::dup2(nowhere, STDOUT_FILENO);
  ::execvp(words.front(), words.data());
  std::perror(words.front());
  std::_Exit(127);
}

Cost run_once(const std::vector<char*>& words) {
  const auto start = std::chrono::steady_clock::now();
  const pid_t child = ::fork();
  if (child == 0) become(words);
  int status = 0;
  rusage used{};
  ::wait4(child, &status, 0, &used);
  const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - start;
  // Not sound is an answer, too; anything else is no measurement.
  if (!WIFEXITED(status) || WEXITSTATUS(status) > 1) {
    std::fprintf(stderr, "side_by_side: %s failed\n", words.front());
    std::exit(2);
  }
  return {wall.count(), seconds(used.ru_utime) + seconds(used.ru_stime), used.ru_maxrss};
}

Cost run_round(const std::vector<char*>& words, int times) {
  Cost mean{0, 0, 0};
  for (int i = 0; i < times; ++i) {
    const Cost one = run_once(words);
    mean.wall += one.wall / times;
    mean.processor += one.processor / times;
    mean.memory = std::max(mean.memory, one.memory);
  }
  return mean;
}

void keep_best(Cost& best, const Cost& one) {
  best.wall = std::min(best.wall, one.wall);
  best.processor = std::min(best.processor, one.processor);
  best.memory = std::max(best.memory, one.memory);
}

}  // namespace

int main(int count, char** words) {
  std::vector<std::vector<char*>> commands(1);
  for (int i = 3; i < count; ++i) {
    if (std::string(words[i]) == "--")
      commands.emplace_back();
    else
      commands.back().push_back(words[i]);
  }
  if (count < 6 || commands.size() != 2 || commands[0].empty() || commands[1].empty()) {
    std::fprintf(stderr, "side_by_side ROUNDS TIMES BASELINE... -- COMMAND...\n");
    return 2;
  }
  for (std::vector<char*>& command : commands) command.push_back(nullptr);
  Cost best[2];
  for (int round = 0; round < std::atoi(words[1]); ++round)
    for (int which = 0; which < 2; ++which)
      keep_best(best[which],
                run_round(commands[static_cast<std::size_t>(which)], std::atoi(words[2])));
  std::printf("%.6f %.6f %ld %.6f %.6f %ld %.2f %.2f\n", best[0].wall, best[0].processor,
              best[0].memory, best[1].wall, best[1].processor, best[1].memory,
              best[1].wall / best[0].wall, best[1].processor / best[0].processor);
  return 0;
}
