#include "deliver/dosbox.h"

#include <catch2/catch.hpp>

#include "support/run_program.h"

namespace rtcmend::test {

void run_in_dosbox(const Workplace& workplace, const std::vector<std::string>& commands,
                   const std::string& parts) {
  need_program("dosbox", "dosbox");
  std::string conf = "[sdl]\noutput=surface\n[cpu]\ncycles=max\n" + parts +
                     "[autoexec]\nmount c \"" + workplace.path("") + "\"\nc:\n";
  for (const std::string& command : commands) conf += command + "\n";
  Start start;
  start.program = "/usr/bin/env";
  start.arguments = {"timeout", "100", "dosbox", "-conf",
                     workplace.put("dosbox.cfg", conf + "exit\n")};
  start.folder = workplace.path("");
  start.environment = {{"SDL_VIDEODRIVER", "dummy"}, {"SDL_AUDIODRIVER", "dummy"}};
  CHECK(run_program(start).code == 0);
}

}  // namespace rtcmend::test
