#include "deliver/dosbox_screen.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <signal.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace rtcmend::test {

namespace {

constexpr auto patience = std::chrono::seconds(20);
constexpr auto pause = std::chrono::milliseconds(20);

/// A number of the head of an X window dump, which are 32 bits wide, the highest byte first
/// (XWDFile.h of X11).
std::size_t head_word(const std::string& dump, std::size_t number) {
  std::size_t value = 0;
  for (std::size_t i = 0; i < 4; ++i)
    value = value << 8 | static_cast<unsigned char>(dump[4 * number + i]);
  return value;
}

/// Of three colours the green, which a grey picture has as its grey.
Picture from_window_dump(const std::string& dump) {
  const std::size_t begin = head_word(dump, 0) + 12 * head_word(dump, 19);
  const std::size_t line = head_word(dump, 12);
  Picture picture{static_cast<int>(head_word(dump, 4)), static_cast<int>(head_word(dump, 5)), {}};
  for (std::size_t y = 0; y < static_cast<std::size_t>(picture.height); ++y)
    for (std::size_t x = 0; x < static_cast<std::size_t>(picture.width); ++x)
      picture.grey.push_back(static_cast<std::uint8_t>(dump[begin + y * line + 4 * x + 1]));
  return picture;
}

std::string configuration(const Workplace& workplace, const std::string& machine,
                          const std::vector<std::string>& commands) {
  std::string text = "[sdl]\noutput=surface\n[dosbox]\nmachine=" + machine +
                     "\n[cpu]\ncycles=20000\n[render]\naspect=false\nscaler=none\n[autoexec]\n"
                     "mount c \"" +
                     workplace.path("") + "\"\nc:\n";
  for (const std::string& command : commands) text += command + "\n";
  return workplace.put("screen.cfg", text);
}

std::vector<std::string> display_words(const Workplace& workplace) {
  std::filesystem::create_directory(workplace.path("glass"));
  // Without -noreset it is deaf for a moment after DOSBox's first look at it.
  return {"Xvfb",      "-displayfd", "1",       "-screen",
          "0",         "800x600x24", "-fbdir",  workplace.path("glass"),
          "-nolisten", "tcp",        "-noreset"};
}

}  // namespace

Companion::Companion(const std::vector<std::string>& words, const std::string& output,
                     const std::vector<std::pair<std::string, std::string>>& environment) {
  std::vector<char*> pointers;
  for (const std::string& word : words) pointers.push_back(const_cast<char*>(word.c_str()));
  pointers.push_back(nullptr);
  process_ = fork();
  REQUIRE(process_ >= 0);
  if (process_ != 0) return;
  const int file = open(output.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  const int nothing = open("/dev/null", O_RDWR);
  dup2(nothing, STDIN_FILENO);
  dup2(file, STDOUT_FILENO);
  dup2(nothing, STDERR_FILENO);
  for (const auto& [name, value] : environment) setenv(name.c_str(), value.c_str(), 1);
  execvp(pointers[0], pointers.data());
  _exit(127);
}

Companion::~Companion() {
  if (process_ <= 0) return;
  // Asked first, for Xvfb then takes its lock away.
  kill(process_, SIGTERM);
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(2);
  while (waitpid(process_, nullptr, WNOHANG) == 0) {
    if (std::chrono::steady_clock::now() > end) kill(process_, SIGKILL);
    std::this_thread::sleep_for(pause);
  }
}

DosboxScreen::DosboxScreen(const Workplace& workplace, const std::string& machine,
                           const std::vector<std::string>& commands)
    : workplace_(workplace),
      display_(display_words(workplace), workplace.path("display")),
      dosbox_({"dosbox", "-conf", configuration(workplace, machine, commands)},
              workplace.path("dosbox.out"),
              {{"DISPLAY", ":" + display_in(workplace)},
               {"SDL_VIDEODRIVER", "x11"},
               {"SDL_AUDIODRIVER", "dummy"}}) {}

std::string DosboxScreen::display_in(const Workplace& workplace) {
  const auto end = std::chrono::steady_clock::now() + patience;
  while (std::chrono::steady_clock::now() < end) {
    const std::string number = workplace.get("display");
    if (number.find('\n') != std::string::npos) return number.substr(0, number.find('\n'));
    std::this_thread::sleep_for(pause);
  }
  FAIL("Xvfb did not say which display it is");
  return {};
}

Picture DosboxScreen::picture() const {
  return from_window_dump(workplace_.get("glass/Xvfb_screen0"));
}

bool has_display() {
  const bool found = std::system("command -v Xvfb > /dev/null 2>&1") == 0;
  if (!found) WARN("left out, for it is not installed (scripts/packages.sh test): Xvfb");
  return found;
}

}  // namespace rtcmend::test
