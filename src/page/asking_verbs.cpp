#include <cctype>
#include <charconv>

#include "base/error.h"
#include "base/text.h"
#include "codes/explain.h"
#include "desk/ready.h"
#include "make/drives.h"
#include "page/request.h"
#include "page/verbs.h"
#include "render/diagnosis_json.h"
#include "render/drives_json.h"

namespace rtcmend::verb {

namespace {

/// What stands between blanks and commas.
std::vector<std::string> words_in(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (std::isspace(static_cast<unsigned char>(c)) != 0 || c == ',' || c == ';') {
      if (!words.back().empty()) words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

std::optional<int> whole_number(const std::string& word) {
  int number = 0;
  const auto [end, failed] = std::from_chars(word.data(), word.data() + word.size(), number);
  if (failed != std::errc() || end != word.data() + word.size()) return std::nullopt;
  return number;
}

/// "615 4 17" is a geometry, "type 2" what a type is, anything else a capacity.
Disk disk_meant(const std::vector<std::string>& words, const Layout* layout,
                std::optional<int>& type) {
  if (words.size() == 2 && lower(words[0]) == "type" && (type = whole_number(words[1]))) {
    const DriveType known = drive_type_numbered(*type, layout);
    return disk_of({known.cylinders, known.heads, known.sectors});
  }
  if (words.size() == 3) {
    const auto cylinders = whole_number(words[0]), heads = whole_number(words[1]),
               sectors = whole_number(words[2]);
    if (cylinders && heads && sectors) return disk_of({*cylinders, *heads, *sectors});
  }
  return disk_of_capacity(parse_capacity(join(words, "")));
}

}  // namespace

Json explain(const Json& request, Shelf& shelf) {
  const auto codes = words_in(word(request, "codes"));
  if (codes.empty()) refuse("codes", "there are no numbers in the box yet");
  if (!request.contains("image")) return explain_json(rtcmend::explain(codes));
  const Image image = image_of(request);
  const Layout layout = layout_of(request, shelf);
  const Readiness ready = readiness(image, layout, reading_of(request, layout, shelf), {});
  return explain_json(rtcmend::explain(codes, ready.examination, layout));
}

Json drives(const Json& request, Shelf& shelf) {
  std::optional<Layout> layout;
  if (!word(request, "layout").empty()) layout = layout_of(request, shelf);
  const Layout* asked = layout ? &*layout : nullptr;
  std::optional<int> type;
  const auto words = words_in(word(request, "disk"));
  if (words.empty()) refuse("disk", "there is no disk in the box yet", "40M, 615 4 17 or type 2");
  const Disk disk = disk_meant(words, asked, type);
  DriveAdvice advice = advise_on_drive(disk, asked);
  if (type)
    std::erase_if(advice.matches,
                  [&](const DriveMatch& match) { return match.type.type != *type; });
  return drives_json({disk, advice, asked});
}

}  // namespace rtcmend::verb
