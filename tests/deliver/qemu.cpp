#include "deliver/qemu.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <signal.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

#include "deliver/code_pictures.h"

namespace rtcmend::test {

namespace {

constexpr auto patience = std::chrono::seconds(60);
constexpr auto pause = std::chrono::milliseconds(40);

std::vector<std::string> arguments(const Workplace& workplace, const QemuSetup& setup) {
  std::vector<std::string> all{
      "qemu-system-i386", "-display", "none", "-M", "pc", "-m", "16", "-nic", "none", "-drive",
      "file=" + setup.floppy + ",if=floppy,format=raw",
      // The boot order must not come from the chip, whose bytes the test changes.
      "-global", "isa-fdc.bootindexA=0", "-chardev",
      "file,id=firmware,path=" + workplace.path("firmware.log"),
      // where the emulator's firmware keeps its diary
      "-device", "isa-debugcon,iobase=0x402,chardev=firmware", "-debugcon",
      "file:" + workplace.path("debug.out"), "-serial", "file:" + workplace.path("serial.out"),
      "-device", "isa-debug-exit,iobase=0xf4", "-rtc", "base=" + setup.clock, "-qmp", "stdio"};
  if (!setup.hard_disk.empty())
    all.insert(all.end(), {"-drive", "file=" + setup.hard_disk + ",if=ide,format=raw"});
  return all;
}

std::string key_name(char c) {
  if (c >= 'A' && c <= 'Z') return std::string("shift-") + static_cast<char>(c - 'A' + 'a');
  switch (c) {
    case '\n':
      return "ret";
    case '-':
      return "minus";
    case ':':
      return "shift-semicolon";
    case ' ':
      return "spc";
    default:
      return std::string(1, c);
  }
}

}  // namespace

Qemu::Qemu(const Workplace& workplace, const QemuSetup& setup) : workplace_(workplace) {
  need_program("qemu-system-i386", "qemu-system-x86");
  int to[2], from[2];
  REQUIRE(pipe(to) == 0);
  REQUIRE(pipe(from) == 0);
  auto words = arguments(workplace, setup);
  process_ = fork();
  REQUIRE(process_ >= 0);
  if (process_ == 0) {
    dup2(to[0], STDIN_FILENO);
    dup2(from[1], STDOUT_FILENO);
    for (const int end : {to[0], to[1], from[0], from[1]}) close(end);
    std::vector<char*> pointers;
    for (std::string& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    execvp(pointers[0], pointers.data());
    _exit(127);
  }
  close(to[0]);
  close(from[1]);
  to_ = to[1];
  from_ = from[0];
  signal(SIGPIPE, SIG_IGN);
  read_line();  // the greeting
  const std::string start = "{\"execute\":\"qmp_capabilities\"}\n";
  REQUIRE(write(to_, start.data(), start.size()) == static_cast<ssize_t>(start.size()));
  read_line();
}

Qemu::~Qemu() {
  close(to_);
  close(from_);
  if (process_ > 0) {
    kill(process_, SIGKILL);
    waitpid(process_, nullptr, 0);
  }
}

std::string Qemu::read_line() {
  for (;;) {
    const auto end = pending_.find('\n');
    if (end != std::string::npos) {
      std::string line = pending_.substr(0, end);
      pending_.erase(0, end + 1);
      return line;
    }
    char buffer[4096];
    const ssize_t got = read(from_, buffer, sizeof buffer);
    if (got <= 0) FAIL("the emulator ended before its time");
    pending_.append(buffer, static_cast<std::size_t>(got));
  }
}

std::string Qemu::ask(const std::string& line) {
  const std::string request =
      R"({"execute":"human-monitor-command","arguments":{"command-line":")" + line + "\"}}\n";
  REQUIRE(write(to_, request.data(), request.size()) == static_cast<ssize_t>(request.size()));
  for (;;) {
    std::string answer = read_line();
    if (answer.find("\"event\"") == std::string::npos) return answer;
  }
}

std::string Qemu::screen() {
  ask("pmemsave 0xb8000 4000 \\\"" + workplace_.path("screen") + "\\\"");
  const std::string cells = workplace_.get("screen");
  std::string text;
  for (std::size_t at = 0; at + 1 < cells.size(); at += 2) {
    text += cells[at] == '\0' ? ' ' : cells[at];
    if (at % 160 == 158) text += '\n';
  }
  return text;
}

Picture Qemu::picture() {
  ask("screendump \\\"" + workplace_.path("picture.ppm") + "\\\"");
  return from_netpbm(workplace_.get("picture.ppm"));
}

std::size_t Qemu::floppy_starts() const {
  const std::string log = workplace_.get("firmware.log");
  const std::string start = "Booting from Floppy...";
  std::size_t count = 0;
  for (auto at = log.find(start); at != std::string::npos; at = log.find(start, at + 1)) ++count;
  return count;
}

void Qemu::wait_for(std::string_view text) {
  const auto end = std::chrono::steady_clock::now() + patience;
  std::string seen;
  while (std::chrono::steady_clock::now() < end) {
    seen = screen();
    if (seen.find(text) != std::string::npos) return;
    std::this_thread::sleep_for(pause);
  }
  FAIL("the screen never showed \"" << text << "\", but\n" << seen);
}

void Qemu::press(const std::vector<std::string>& keys) {
  for (const std::string& key : keys) {
    ask("sendkey " + key + " 20");
    std::this_thread::sleep_for(pause);
  }
}

void Qemu::type(std::string_view text) {
  for (const char c : text) press({key_name(c)});
}

void Qemu::change_floppy(const std::string& image) {
  ask("change floppy0 " + image + " raw");
}

void Qemu::wait_for_end() {
  const auto end = std::chrono::steady_clock::now() + patience;
  while (std::chrono::steady_clock::now() < end) {
    if (waitpid(process_, nullptr, WNOHANG) == process_) {
      process_ = -1;
      return;
    }
    std::this_thread::sleep_for(pause);
  }
  FAIL("the machine did not switch itself off; its screen:\n" << screen());
}

Image read_by_reader(const Qemu& machine) {
  const std::string bytes = machine.debug_output();
  REQUIRE(bytes.size() >= 128);
  const auto* first = reinterpret_cast<const std::uint8_t*>(bytes.data());
  return Image(std::span(first + bytes.size() - 128, 128));
}

}  // namespace rtcmend::test
