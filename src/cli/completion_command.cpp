#include "cli/commands.h"
#include "cli/completion.h"
#include "cli/print.h"

namespace rtcmend {

Action set_up_completion(Options& options) {
  auto shell = std::make_shared<std::string>();
  options.word(*shell, "SHELL", "bash, zsh or fish");
  options.example("rtcmend completion bash > completions/rtcmend");
  options.example("rtcmend completion fish > ~/.config/fish/completions/rtcmend.fish");
  return [shell] {
    print(completion_script(*shell));
    return exit_good;
  };
}

}  // namespace rtcmend
