#include <algorithm>
#include <bit>
#include <fmt/format.h>
#include <random>
#include <utility>

#include "base/error.h"
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

/// What memory that nobody wrote to, and registers that nobody set, are full of.
bool is_common(std::uint16_t sign) {
  return sign == 0x0000 || sign == 0xFFFF;
}

/// The CRC over every byte as it is written, and over those that are read back; over the latter
/// alone where the program itself chooses one of the former.
class Sign {
 public:
  Sign(const std::vector<Run>& passing, bool chooses)
      : passing_(chooses ? std::vector<std::uint8_t>{} : bytes_of(passing)),
        twice_(!chooses),
        crc_(model(chooses)) {}

  /// The sign nearest to `code` that longer runs can come to and that is not a common one. The
  /// polynomial is divisible by x + 1, so a CRC has the parity of its message: bytes that are
  /// written and read back count twice and leave it as it is.
  std::uint16_t within_reach(std::uint16_t code, const std::vector<Run>& staying) const {
    const bool fixed = twice_ && std::popcount(code) % 2 != std::popcount((*this)(staying)) % 2;
    const auto near = static_cast<std::uint16_t>(fixed ? code ^ 1 : code);
    constexpr std::uint16_t same_parity = 0x0300;
    return is_common(near) ? near ^ same_parity : near;
  }

  std::uint16_t operator()(const std::vector<Run>& staying) const {
    std::vector<std::uint8_t> seen = passing_;
    const auto stay = bytes_of(staying);
    seen.insert(seen.end(), stay.begin(), stay.end());
    if (twice_) seen.insert(seen.end(), stay.begin(), stay.end());
    return crc_(seen);
  }

 private:
  static std::vector<std::uint8_t> bytes_of(const std::vector<Run>& runs) {
    std::vector<std::uint8_t> bytes;
    for (const Run& run : runs) bytes.insert(bytes.end(), run.bytes.begin(), run.bytes.end());
    return bytes;
  }
  static CrcModel model(bool chooses) {
    CrcModel model = crc_models::ibm_3740;
    if (!chooses) model.init = sign_start;
    return model;
  }

  std::vector<std::uint8_t> passing_;
  bool twice_;
  Crc crc_;
};

// Writing a byte once more changes the sign and nothing else.

/// The runs, longer where their sign would be a common one.
std::vector<Run> with_uncommon_sign(std::vector<Run> runs, const Sign& sign) {
  while (is_common(sign(runs))) runs.push_back({runs.back().first, {runs.back().bytes.front()}});
  return runs;
}

/// A run for each value that is written: of like ones the first.
std::vector<Run> different_bytes(const std::vector<Run>& runs) {
  std::vector<Run> different;
  for (const Run& run : runs)
    for (std::size_t i = 0; i < run.bytes.size(); ++i) {
      const auto like = [&](const Run& seen) { return seen.bytes.front() == run.bytes[i]; };
      if (std::none_of(different.begin(), different.end(), like))
        different.push_back({static_cast<Address>(run.first + i), {run.bytes[i]}});
    }
  return different;
}

/// A sign that covers a password would give it away on a screen: the runs, longer by such bytes
/// that it comes to the image's open code, which is no secret. One try in 65,536 hits it.
std::vector<Run> with_open_sign(const std::vector<Run>& runs, const Sign& sign,
                                const Parcel& parcel) {
  constexpr std::size_t most_tries = 1'000'000;
  const std::uint16_t wanted = sign.within_reach(open_code(parcel.image, parcel.hidden), runs);
  const std::vector<Run> choices = different_bytes(runs);
  // As few as the number of choices allows, for a person may have to type them.
  const std::size_t more = choices.size() >= 40 ? 4 : choices.size() >= 8 ? 7 : 20;
  std::mt19937 dice(1);  // the same script for the same image
  for (std::size_t i = 0; i < most_tries; ++i) {
    std::vector<Run> longer = runs;
    for (std::size_t j = 0; j < more; ++j) longer.push_back(choices[dice() % choices.size()]);
    if (sign(longer) == wanted) return longer;
  }
  refuse_choice("as", "the sign of this script would give away the password's bytes",
                Advice{{"Take another way", Act{Act::Kind::choose, "as", "dos-program"}}});
}

Script writer(const Runs& runs, const Parcel& parcel) {
  const bool chooses = runs.balanced.has_value();
  const std::vector<Run> passing = joined({runs.spoil, runs.clock});
  const Sign sign(passing, chooses);
  std::vector<Run> staying = joined({runs.ram, runs.last});
  staying = parcel.hidden.empty() ? with_uncommon_sign(std::move(staying), sign)
                                  : with_open_sign(staying, sign, parcel);
  Script script;
  script.sign = sign(staying);
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
  refuse_without_program(parcel);
  const Script script = writer(runs_of(parcel, plan), parcel);
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
