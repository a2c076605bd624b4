#include <stdexcept>
#include <utility>

#include "deliver/balancer.h"
#include "deliver/carriers.h"
#include "deliver/keyboard_text.h"
#include "deliver/program.h"
#include "deliver/runs.h"

namespace rtcmend {

namespace {

using Bytes = std::vector<std::uint8_t>;

constexpr std::uint8_t nmi_off = 0x80;  // bit 7 of port 70h (RBIL61)

/// The runs under their veil (asm/keyboard_writer.asm).
Bytes veiled(const std::vector<Run>& runs, std::uint8_t veil) {
  Bytes bytes;
  for (const Run& run : runs) {
    auto address = static_cast<std::uint8_t>(run.first | nmi_off);
    bytes.push_back(address ^ veil);
    bytes.push_back(static_cast<std::uint8_t>(run.bytes.size() ^ veil));
    for (const std::uint8_t byte : run.bytes) bytes.push_back(byte ^ address++ ^ veil);
  }
  return bytes;
}

void fill_balance(Program& program, const Runs& runs, std::uint16_t list_at, std::uint8_t veil) {
  fill_stretch(program, runs, list_at);
  const auto spoiled_address = static_cast<std::uint8_t>(runs.spoil.front().first | nmi_off);
  program.fill_byte("balance", runs.balanced->balance ^ veil);
  program.fill_byte("veil_of_balance", veil);
  program.fill_byte("veil_of_spoiled", spoiled_address ^ veil);
  program.fill_byte("veil_of_byte", veil);
}

/// The program with its bytes veiled by xor with `veil`; nothing when that does not come out well.
std::optional<TypedProgram> decoded_with(std::uint8_t veil, const Runs& runs) {
  Program program(runs.balanced ? "keyboard_balancer" : "keyboard_writer");
  const auto list_at = static_cast<std::uint16_t>(typed_start + program.bytes().size());
  Bytes list = veiled(joined({runs.spoil, runs.clock}), veil);
  const auto compared_from = static_cast<std::uint16_t>(list_at + list.size());
  const Bytes staying = veiled(joined({runs.ram, runs.last}), veil);
  list.insert(list.end(), staying.begin(), staying.end());
  list.insert(list.end(), {veil, veil});
  program.fill_byte("veil", veil);
  program.fill_word("veil_twice", static_cast<std::uint16_t>(veil << 8 | veil));
  program.fill_word("compared_from", compared_from);
  if (runs.balanced) fill_balance(program, runs, list_at, veil);

  Bytes whole = program.bytes();
  whole.insert(whole.end(), list.begin(), list.end());
  return typed_program(std::move(whole));
}

/// With the first veil that keeps zeros out and lets no slip through.
std::optional<TypedProgram> first_decoded(const Runs& runs) {
  for (int veil = 0xFF; veil > 0; --veil) {
    if (auto decoded = decoded_with(static_cast<std::uint8_t>(veil), runs)) return decoded;
  }
  return std::nullopt;
}

/// Where an address of the balancing program has a byte 00h, no veil helps: then the plain one,
/// which leaves one state in 256 to chance.
TypedProgram decoded_program(Runs runs) {
  auto decoded = first_decoded(runs);
  if (!decoded && runs.balanced) {
    runs.balanced.reset();
    decoded = first_decoded(runs);
  }
  if (!decoded) throw std::logic_error("no veil keeps zeros out of the keyboard program");
  return *decoded;
}

constexpr SheetWords words{
    "MEND", "THE KEYBOARD PROGRAM THAT WRITES THE CLOCK CHIP\n\n",
    "Then type MEND and Enter. When all is right the screen shows the letters of the\n"
    "right column in one row, and one sign behind them:\n\n"
    "    C>MEND\n"
    "    (the letters)+      + the chip holds the bytes\n"
    "    (the letters)-      - they were written, but a byte did not take\n\n"
    "Then set the clock with the DOS commands DATE and TIME, and restart.\n\n"
    "Later, to see whether the chip kept its bytes: switch off, over night, switch on\n"
    "and type MEND C and Enter. With a letter behind its name it writes nothing and\n"
    "only compares: + all kept, - a byte is another one now.\n\n"};

}  // namespace

Delivery keyboard_program(const Parcel& parcel, const WritePlan& plan) {
  refuse_without_program(parcel);
  return typed_delivery(decoded_program(runs_of(parcel, plan)), words);
}

}  // namespace rtcmend
