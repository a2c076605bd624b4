#include "end_to_end/two_faces.h"

#include "page/image_text.h"
#include "page/workbench.h"

namespace rtcmend::test {

namespace {

constexpr const char* dump = "dump.txt";

/// "rtcmend: WHERE: WHAT" without the place, which each face names in its own way.
std::string what_of(const std::string& complaint) {
  // What was noted about the reading may stand before it.
  const std::size_t first = complaint.find("rtcmend: ");
  const std::string line = first == std::string::npos
                               ? complaint
                               : complaint.substr(first, complaint.find('\n', first) - first);
  const std::size_t begin = line.find(": ", std::string("rtcmend: ").size());
  return begin == std::string::npos ? line : line.substr(begin + 2);
}

class CommandLine {
 public:
  explicit CommandLine(const Story& story) : story_(story) {
    bench_.put(dump, story.content);
    if (!story.again.empty()) bench_.put("again.txt", story.again);
  }

  Ending run() {
    std::string input = dump;
    for (const Deed& deed : story_.deeds)
      if (deed.kind == Deed::Kind::take_back) {
        const Ran ran =
            bench_.run({"convert", input, "--undo", deed.what, "-o", "back.bin", "--force"});
        if (ran.code > 1) return {what_of(ran.err), {}, {}};
        input = "back.bin";
      }
    if (story_.way != "save") return deliver(input);
    return save(input);
  }

 private:
  std::vector<std::string> reading(bool with_again) const {
    std::vector<std::string> words;
    if (!story_.layout.empty()) words.insert(words.end(), {"--layout", story_.layout});
    if (with_again && !story_.again.empty()) words.insert(words.end(), {"--again", "again.txt"});
    return words;
  }

  Ran write(std::vector<std::string> words, const std::string& output) {
    const auto more = reading(true);
    words.insert(words.end(), more.begin(), more.end());
    words.insert(words.end(), {"-o", output, "--force"});
    if (story_.anyway) words.emplace_back("--unsound-anyway");
    return bench_.run(words);
  }

  Ending save(const std::string& input) {
    std::vector<std::string> words{"amend", input};
    bool amends = false;
    for (const Deed& deed : story_.deeds) switch (deed.kind) {
        case Deed::Kind::take_back:
        case Deed::Kind::seal:
          break;
        case Deed::Kind::repair:
          words.insert(words.end(), {"--accept", suspect(input, deed.what)});
          amends = true;
          break;
        case Deed::Kind::byte:
          words.insert(words.end(), {"--byte", deed.what});
          amends = true;
          break;
        case Deed::Kind::field:
          words.insert(words.end(), {"--set", deed.what});
          amends = true;
          break;
        case Deed::Kind::clock:
          words.insert(words.end(), {"--clock", deed.what});
          amends = true;
          break;
      }
    if (!amends) words = {"seal", input};
    words.insert(words.end(), {"--to", "json"});
    const Ran ran = write(words, "out.json");
    if (ran.code > 1) return {what_of(ran.err), {}, {}};
    return {{}, bench_.get("out.json"), standing("out.json")};
  }

  Ending deliver(const std::string& input) {
    const Ran ran =
        write({"deliver", input, "--as", story_.way, "--clock", story_.clock}, "out.img");
    if (ran.code > 1) return {what_of(ran.err), {}, {}};
    return {{}, bench_.get("out.img"), {}};
  }

  std::string suspect(const std::string& input, const std::string& id) {
    if (id != "first") return id;
    std::vector<std::string> words{"verify", input, "--json"};
    const auto more = reading(true);
    words.insert(words.end(), more.begin(), more.end());
    const Json suspects = Json::parse(bench_.run(words).out)["suspects"];
    return suspects.empty() ? "none" : suspects[0]["id"].get<std::string>();
  }

  std::string standing(const std::string& file) {
    std::vector<std::string> words{"verify", file, "--json"};
    const auto more = reading(false);
    words.insert(words.end(), more.begin(), more.end());
    return Json::parse(bench_.run(words).out)["standing"].dump();
  }

  const Story& story_;
  Workbench bench_;
};

/// What the page's scripts do: they keep image, layout and the dump as it was read.
class Page {
 public:
  explicit Page(const Story& story) : story_(story) {}

  Ending run() {
    Json answer = call({{"do", "open"}, {"content", hex_text(story_.content)}, {"name", dump}});
    if (!ok(answer)) return refusal(answer);
    note_ = answer["note"];
    now_ = {{"image", answer["image"]}, {"read", answer["read"]}};
    now_["layout"] = !story_.layout.empty()       ? Json(story_.layout)
                     : answer["layout"].is_null() ? answer["begin"]
                                                  : answer["layout"];
    if (!story_.again.empty()) {
      answer = about({{"do", "compare"}, {"content", hex_text(story_.again)}, {"name", "again"}});
      if (!ok(answer)) return refusal(answer);
      now_["read"]["again"] = answer["found"];
    }
    for (const Deed& deed : story_.deeds)
      if (Json refused = act(deed); !refused.is_null()) return refusal(refused);
    if (seals()) act({Deed::Kind::seal, {}});
    return story_.way == "save" ? save() : deliver();
  }

 private:
  /// The command line seals by itself, unless repairs are all that is asked for.
  bool seals() const {
    if (story_.way != "save") return false;
    bool only_repairs = !story_.deeds.empty();
    for (const Deed& deed : story_.deeds)
      only_repairs =
          only_repairs && (deed.kind == Deed::Kind::repair || deed.kind == Deed::Kind::take_back);
    bool any_repair = false;
    for (const Deed& deed : story_.deeds)
      any_repair = any_repair || deed.kind == Deed::Kind::repair;
    return !(only_repairs && any_repair);
  }

  /// The refusal, or null.
  Json act(const Deed& deed) {
    const std::size_t equals = deed.what.find('=');
    const std::string left = deed.what.substr(0, equals);
    const std::string right = equals == std::string::npos ? "" : deed.what.substr(equals + 1);
    Json answer;
    switch (deed.kind) {
      case Deed::Kind::take_back:
        answer = about({{"do", "undo-misread"}, {"what", deed.what}});
        break;
      case Deed::Kind::repair:
        answer = about({{"do", "accept"}, {"suspect", suspect(deed.what)}});
        break;
      case Deed::Kind::byte:
        answer = about({{"do", "byte"}, {"at", std::stoi(left, nullptr, 16)}, {"digits", right}});
        break;
      case Deed::Kind::field:
        answer = about({{"do", "set"}, {"field", left}, {"entry", right}});
        break;
      case Deed::Kind::clock:
        answer = about({{"do", "clock"}, {"time", deed.what}});
        break;
      case Deed::Kind::seal:
        answer = about({{"do", "seal"}});
        break;
    }
    if (!ok(answer)) return answer;
    now_["image"] = answer["image"];
    if (answer.contains("read")) {
      now_["read"] = answer["read"];
      if (story_.layout.empty()) {
        const Json again =
            call({{"do", "open"}, {"image", answer["read"]["image"]}, {"name", dump}});
        now_["layout"] = again["layout"].is_null() ? again["begin"] : again["layout"];
      }
    }
    return nullptr;
  }

  std::string suspect(const std::string& id) {
    if (id != "first") return id;
    const Json suspects = about({{"do", "suspects"}})["suspects"];
    return suspects.empty() ? "none" : suspects[0]["id"].get<std::string>();
  }

  Ending save() {
    const Json answer =
        about({{"do", "save"}, {"form", "json"}, {"note", note_}, {"anyway", story_.anyway}});
    if (!ok(answer)) return refusal(answer);
    return {{},
            bytes_from_hex(answer["content"].get<std::string>()),
            about({{"do", "look"}})["standing"].dump()};
  }

  Ending deliver() {
    const Json answer = about({{"do", "deliver"},
                               {"way", story_.way},
                               {"clock", story_.clock},
                               {"anyway", story_.anyway}});
    if (!ok(answer)) return refusal(answer);
    return {{}, bytes_from_hex(answer["content"].get<std::string>()), {}};
  }

  Json call(const Json& request) { return Json::parse(bench_.call(request.dump())); }
  Json about(const Json& request) {
    Json whole = now_;
    whole.update(request);
    return call(whole);
  }
  static bool ok(const Json& answer) { return answer["ok"] == true; }
  static Ending refusal(const Json& answer) { return {answer["what"].get<std::string>(), {}, {}}; }

  const Story& story_;
  rtcmend::Workbench bench_;
  Json now_;
  std::string note_;
};

}  // namespace

Ending on_the_command_line(const Story& story) {
  return CommandLine(story).run();
}

Ending on_the_page(const Story& story) {
  return Page(story).run();
}

}  // namespace rtcmend::test
