#include <fmt/format.h>

#include "base/error.h"
#include "deliver/carriers.h"
#include "deliver/debugger_text.h"
#include "deliver/keystrokes.h"
#include "deliver/program.h"
#include "deliver/runs.h"

namespace rtcmend {

namespace {

constexpr std::uint16_t program_start = 0x100;
constexpr std::uint8_t nmi_off = 0x80;  // bit 7 of port 70h (RBIL61)

void append(std::vector<std::uint8_t>& bytes, const std::vector<Run>& runs) {
  for (const Run& run : runs) {
    bytes.push_back(run.first | nmi_off);
    bytes.push_back(static_cast<std::uint8_t>(run.bytes.size()));
    bytes.insert(bytes.end(), run.bytes.begin(), run.bytes.end());
  }
}

/// Two bytes that make the sum, and the sum of the sums, come out at 0.
void append_closing_bytes(std::vector<std::uint8_t>& bytes) {
  std::uint8_t sum = 0, sums = 0;
  for (const std::uint8_t byte : bytes) {
    sum = static_cast<std::uint8_t>(sum + byte);
    sums = static_cast<std::uint8_t>(sums + sum);
  }
  bytes.push_back(static_cast<std::uint8_t>(-(sum + sums)));
  bytes.push_back(sums);
}

std::vector<std::uint8_t> writer(const Runs& runs) {
  Program program("debugger_writer");
  std::vector<std::uint8_t> list;
  append(list, runs.clock);
  append(list, runs.ram);
  list.insert(list.end(), {0, 0});
  program.fill_word("length", static_cast<std::uint16_t>(program.bytes().size() + list.size() + 2));
  std::vector<std::uint8_t> whole = program.bytes();
  whole.insert(whole.end(), list.begin(), list.end());
  append_closing_bytes(whole);
  return whole;
}

/// What the program leaves to the debugger: register B without SET, once all bytes are in.
std::string port_commands(const std::vector<Run>& runs) {
  std::string text;
  for (const Run& run : runs)
    text += fmt::format("o70 {:x}\r\no71 {:x}\r\n", run.first, run.bytes.front());
  return text;
}

}  // namespace

Delivery debugger_script(const Parcel& parcel, const WritePlan& plan) {
  refuse_when_lost(parcel);
  const Runs runs = runs_of(parcel, plan);
  Delivery delivery;
  delivery.content =
      enter_bytes(program_start, writer(runs)) + "g=100\r\n" + port_commands(runs.last) + "q\r\n";
  delivery.keystrokes = count_keystrokes(delivery.content);
  return delivery;
}

Delivery debugger_capture(const CaptureOrder&) {
  Delivery delivery;
  delivery.content =
      enter_bytes(program_start, Program("debugger_reader").bytes()) + "g=100\r\nd200l80\r\nq\r\n";
  delivery.keystrokes = count_keystrokes(delivery.content);
  return delivery;
}

}  // namespace rtcmend
