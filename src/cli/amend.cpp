#include <algorithm>
#include <fmt/format.h>
#include <iostream>

#include "base/error.h"
#include "base/text.h"
#include "cli/ask.h"
#include "cli/clock_option.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/finish.h"
#include "desk/change.h"

namespace rtcmend {

namespace {

struct AmendOptions {
  DumpSource source;
  std::vector<std::string> words;  ///< the dump, and settings that stand behind one --set
  std::vector<std::string> settings, bytes;
  std::vector<std::string> accepted;  ///< ids of suspects
  bool ask = false;
  std::string clock;
  Finish finish;
};

/// "floppy_a=1.44M", as against a file's name.
bool is_setting(const std::string& word) {
  const std::size_t length = word.find('=');
  return length != std::string::npos && length > 0 &&
         word.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == length;
}

/// "--set A=1 B=2" leaves B=2 among the words: sorts them out.
AmendOptions sorted(AmendOptions given) {
  for (const std::string& word : given.words) {
    if (is_setting(word))
      given.settings.push_back(word);
    else if (given.source.path.empty())
      given.source.path = word;
    else
      refuse("amend", fmt::format("\"{}\" is one word too many", word),
             "rtcmend amend DUMP --set FIELD=VALUE -o OUT");
  }
  if (given.source.path.empty())
    refuse("DUMP", "it is needed, and was not given",
           "rtcmend amend DUMP --set FIELD=VALUE -o OUT");
  if (given.ask && given.source.path == "-")
    refuse("--ask", "standard input cannot be the dump and the answers at once",
           "rtcmend amend FILE --ask -o OUT");
  if (given.settings.empty() && given.bytes.empty() && given.clock.empty() &&
      given.accepted.empty() && !given.ask)
    refuse("amend", "nothing is to be changed",
           "--ask, --set FIELD=VALUE, --clock TIME or --accept SUSPECT; rtcmend seal for the "
           "checks alone");
  return given;
}

Amendment amendment_in(const AmendOptions& given, const Layout& layout) {
  Amendment amendment;
  amendment.repairs = given.accepted;
  for (const std::string& text : given.bytes) {
    const auto bytes = parse_bytes(text);
    amendment.bytes.insert(amendment.bytes.end(), bytes.begin(), bytes.end());
  }
  for (const std::string& text : given.settings)
    amendment.settings.push_back(parse_setting(layout, text));
  if (!given.clock.empty()) amendment.clock = parse_clock(given.clock, "--clock");
  return amendment;
}

/// What a person answers comes before what the line says: a field set twice is refused.
void add_answers(Amendment& amendment, const Opened& opened, const Finish& finish) {
  // An image on standard output, or JSON there, must not be mixed with questions.
  std::ostream& questions = finish.output.path == "-" || finish.voice.json ? std::cerr : std::cout;
  const Description answered = ask_changes(opened.dump.image, *opened.layout, std::cin, questions);
  for (const auto& [field, value] : answered.set) amendment.settings.push_back({field, value});
  if (answered.clock) amendment.clock = answered.clock;
  if (answered.clock_now) amendment.clock = local_now();
}

int amend_dump(const AmendOptions& given) {
  const auto inputs = inputs_of(given.source);
  check_output(given.finish.output, inputs);
  const Opened opened = open_dump(given.source);
  const Image& image = opened.dump.image;
  Amendment amendment = amendment_in(given, *opened.layout);
  if (given.ask) add_answers(amendment, opened, given.finish);
  Amended put_right = amended(image, *opened.layout, opened.reading, opened.provenance, amendment);
  Made made = made_from(opened, std::move(put_right.image), inputs);
  made.reading = std::move(put_right.reading);
  return write_and_report(made, given.finish);
}

}  // namespace

Action set_up_amend(Options& options) {
  auto given = std::make_shared<AmendOptions>();
  options.words(given->words, "DUMP", "the dump; - is standard input");
  options.values(given->settings, "--set", "FIELD=VALUE",
                 "give a field a value; \"rtcmend layouts print ID\" lists both");
  options.value(given->clock, "--clock", "TIME", "set the clock: 2031-05-14T09:30:00, or now");
  options.values(given->accepted, "--accept", "SUSPECT",
                 "make a repair that \"rtcmend verify\" lists among its suspects");
  options.values(given->bytes, "--byte", "AT=HEX", "set a byte that no field names");
  options.flag(
      given->ask, "--ask",
      "ask for each setting, with what the dump holds in brackets; ? explains, < goes back");
  add_reading(options, given->source);
  add_again(options, given->source);
  add_finish(options, given->finish);
  options.example("rtcmend amend dump.bin --set disk_0_type=39 --clock now -o new.bin");
  options.example("rtcmend amend dump.bin --set floppy_a=1.44M floppy_b=none -o new.hex");
  options.example("rtcmend amend dump.bin --accept bit-12-3 -o mended.bin");
  return [given] { return amend_dump(sorted(*given)); };
}

}  // namespace rtcmend
