#include <fmt/format.h>

#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/part_option.h"
#include "cli/print.h"
#include "desk/change.h"
#include "render/diagnosis_json.h"
#include "terminal/diagnosis.h"
#include "terminal/shell_word.h"
#include "terminal/show.h"

namespace rtcmend {

namespace {

struct VerifyOptions {
  DumpSource source;
  std::string part;
  Voice voice;
};

/// The dump and all that it was weighed with, as the words that accept one of its suspects.
std::string dump_words(const DumpSource& source) {
  std::string words = shell_word(source.path);
  const auto add = [&](const char* option, const std::string& value) {
    if (!value.empty()) words += fmt::format(" {} {}", option, shell_word(value));
  };
  for (const std::string& again : source.again) add("--again", again);
  add("--before", source.before);
  add("--layout", source.layout);
  return words;
}

int verify(const VerifyOptions& given) {
  check_part(given.part);
  Opened opened = open_dump(given.source);
  const Image& image = opened.dump.image;
  opened.examination = with_part(std::move(opened.examination), given.part, image, *opened.layout);
  const auto blamed = open_suspects(image, *opened.layout, opened.reading, opened.provenance);
  if (given.voice.json) {
    Json json = verify_json(card_of(opened));
    json["suspects"] = suspects_json(blamed);
    json["none_of_these"] = none_json(blamed);
    print_json(json);
  } else {
    const Ink ink = given.voice.ink();
    print(verify_text(card_of(opened), ink) + suspects_text(blamed, dump_words(given.source), ink));
  }
  return opened.examination.sound ? exit_good : exit_bad;
}

}  // namespace

Action set_up_verify(Options& options) {
  auto given = std::make_shared<VerifyOptions>();
  add_dump(options, given->source);
  add_part(options, given->part);
  add_again(options, given->source);
  add_voice(options, given->voice);
  options.example("rtcmend verify dump.bin && echo fine");
  options.example("rtcmend verify dump.bin --part DS12887A");
  options.example("rtcmend verify first.bin --again second.bin --again third.bin");
  return [given] { return verify(*given); };
}

}  // namespace rtcmend
