#include <fmt/format.h>

#include "check/crc.h"
#include "deliver/balancer.h"
#include "deliver/carriers.h"
#include "deliver/debugger_text.h"
#include "deliver/keystrokes.h"
#include "deliver/program.h"
#include "deliver/runs.h"

namespace rtcmend {

namespace {

constexpr std::uint16_t program_start = 0x100;
constexpr std::uint16_t sign_start = writing_crc - 0x100;  // as the program goes on with it
constexpr Address resting_place = 0x0D;  // a register that cannot be written, and NMI on

void append_end(std::vector<std::uint8_t>& list) {
  list.insert(list.end(), {resting_place, 0});
}

/// Code and runs, closed, and what BX shows in the end.
struct Script {
  std::vector<std::uint8_t> program;
  std::uint16_t sign = 0;
};

/// The CRC over every byte as it is written, and over those that are read back; over the latter
/// alone where the program itself chooses one of the former.
std::uint16_t sign_of(const std::vector<Run>& passing, const std::vector<Run>& staying,
                      bool chooses) {
  const auto seen = chooses ? staying : joined({passing, staying, staying});
  std::vector<std::uint8_t> bytes;
  for (const Run& run : seen) bytes.insert(bytes.end(), run.bytes.begin(), run.bytes.end());
  CrcModel model = crc_models::ibm_3740;
  if (!chooses) model.init = sign_start;
  return crc_bitwise(model, bytes);
}

/// What memory that nobody wrote to, and registers that nobody set, are full of.
bool is_common(std::uint16_t sign) {
  return sign == 0x0000 || sign == 0xFFFF;
}

Script writer(const Runs& runs) {
  const bool chooses = runs.balanced.has_value();
  const std::vector<Run> passing = joined({runs.spoil, runs.clock});
  std::vector<Run> staying = joined({runs.ram, runs.last});
  Script script;
  // Writing a byte once more changes the sign and nothing else.
  while (is_common(script.sign = sign_of(passing, staying, chooses)))
    staying.push_back({staying.back().first, {staying.back().bytes.front()}});
  Program program(chooses ? "debugger_balancer" : "debugger_writer");
  const auto list_at = static_cast<std::uint16_t>(program_start + program.bytes().size());
  std::vector<std::uint8_t> list;
  append_runs(list, passing);
  program.fill_word("compared_from", static_cast<std::uint16_t>(list_at + list.size()));
  append_runs(list, staying);
  append_end(list);
  program.fill_word("end", static_cast<std::uint16_t>(list_at + list.size() + 2));
  if (chooses) {
    fill_stretch(program, runs, list_at);
    program.fill_byte("balance", runs.balanced->balance);
  }
  script.program = program.bytes();
  script.program.insert(script.program.end(), list.begin(), list.end());
  const auto closing = closing_bytes(script.program);
  script.program.insert(script.program.end(), closing.begin(), closing.end());
  return script;
}

/// INT 3 wherever a line may be missing later, so that no program runs into what memory happened to
/// hold.
std::string fill_with_stops(std::size_t size) {
  return fmt::format("f{:x}l{:x} cc\r\n", program_start, (size + 0xFF) / 0x100 * 0x100);
}

}  // namespace

Delivery debugger_script(const Parcel& parcel, const WritePlan& plan) {
  refuse_when_lost(parcel);
  const Script script = writer(runs_of(parcel, plan));
  Delivery delivery;
  delivery.content = fill_with_stops(script.program.size()) +
                     enter_bytes(program_start, script.program) + "g=100\r\nq\r\n";
  delivery.keystrokes = count_keystrokes(delivery.content);
  delivery.sign = script.sign;
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
