#include "make/amend.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "cli/clock_option.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/finish.h"
#include "repair/suspects.h"

namespace rtcmend {

namespace {

struct AmendOptions {
  DumpSource source;
  std::vector<std::string> words;  ///< the dump, and settings that stand behind one --set
  std::vector<std::string> settings, bytes;
  std::vector<std::string> accepted;  ///< ids of suspects
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
  if (given.settings.empty() && given.bytes.empty() && given.clock.empty() &&
      given.accepted.empty())
    refuse(
        "amend", "nothing is to be changed",
        "--set FIELD=VALUE, --clock TIME or --accept SUSPECT; rtcmend seal for the checks alone");
  return given;
}

void refuse_concealed(const Layout& layout, Address at) {
  for (const Field* field : layout.fields_at(at))
    if (field->meaning == Meaning::concealed)
      refuse("--byte", fmt::format("byte {} belongs to {}, which rtcmend does not change",
                                   hex_prose(at), field->id));
}

/// "2D=40" sets one byte, "2D=4001" two.
void set_bytes(const std::string& text, const Layout& layout, Image& image) {
  const std::size_t equals = std::min(text.find('='), text.size());
  const auto first = parse_hex(text.substr(0, equals), 0x7F);
  const std::string digits = text.substr(std::min(equals + 1, text.size()));
  if (!first || digits.empty() || digits.size() % 2 != 0)
    refuse("--byte", fmt::format("\"{}\" is not an address and bytes", text), "--byte 2D=40");
  for (std::size_t i = 0; i < digits.size(); i += 2) {
    const std::size_t at = *first + i / 2;
    const auto byte = parse_hex(digits.substr(i, 2), 0xFF);
    if (!byte)
      refuse("--byte", fmt::format("\"{}\" is not an address and bytes", text), "--byte 2D=40");
    if (at >= image.size())
      refuse("--byte", fmt::format("{:02X}h is outside the chip's {} bytes", at, image.size()));
    refuse_concealed(layout, static_cast<Address>(at));
    image.set(static_cast<Address>(at), static_cast<std::uint8_t>(*byte));
  }
}

/// The repairs made, one after the other: the second is looked for in what the first left.
Image with_accepted(const AmendOptions& given, const Opened& opened) {
  Image image = opened.dump.image;
  for (const std::string& id : given.accepted)
    image = repaired(image, need_suspect(suspects(image, opened.layout), id));
  return image;
}

Image amended(const AmendOptions& given, const Opened& opened) {
  Image image = with_accepted(given, opened);
  // A repair makes its check hold by itself; sealing would hide what else is wrong.
  if (given.settings.empty() && given.bytes.empty() && given.clock.empty()) return image;
  for (const std::string& text : given.bytes) set_bytes(text, opened.layout, image);
  std::vector<Setting> settings;
  for (const std::string& text : given.settings)
    settings.push_back(parse_setting(opened.layout, text));
  std::optional<DateTime> clock;
  if (!given.clock.empty()) clock = parse_clock(given.clock, "--clock");
  return amend(image, opened.layout, settings, clock);
}

int amend_dump(const AmendOptions& given) {
  const auto inputs = inputs_of(given.source);
  check_output(given.finish.output, inputs);
  const Opened opened = open_dump(given.source);
  return write_and_report({opened.name, amended(given, opened), opened.layout, opened.dump.form,
                           opened.dump.note, inputs, opened.dump.image},
                          given.finish);
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
  add_reading(options, given->source);
  add_finish(options, given->finish);
  options.example("rtcmend amend dump.bin --set disk_0_type=39 --clock now -o new.bin");
  options.example("rtcmend amend dump.bin --set floppy_a=1.44M floppy_b=none -o new.hex");
  options.example("rtcmend amend dump.bin --accept bit-12-3 -o mended.bin");
  return [given] { return amend_dump(sorted(*given)); };
}

}  // namespace rtcmend
