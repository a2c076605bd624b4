#include "terminal/history.h"

#include <catch2/catch.hpp>

#include "layout/library.h"
#include "render/history_json.h"
#include "support/sound_images.h"

using namespace rtcmend;

namespace {

HistoryItem item(const std::string& name, int day, std::optional<Image> image) {
  HistoryItem item;
  item.name = name;
  item.date = {2031, 5, day, 0, 0, 0};
  item.image = std::move(image);
  return item;
}

std::string text_of(std::vector<HistoryItem> items, const std::string& folder = "shelf/heron") {
  const Layout layout = built_in_layout("at");
  return history_text(history(std::move(items), layout), {folder}, layout, Ink());
}

bool has(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a history ends with the image to start from") {
  const std::string text =
      text_of({item("a.bin", 1, at_64_image()), item("b.bin", 2, at_64_image())});
  CHECK(has(text, "              nothing changed\n"));
  CHECK(
      text.ends_with("\nLast good image, and the latest: b.bin, 2031-05-02.\n"
                     "Start from it: rtcmend show shelf/heron/b.bin\n"));
  CHECK(has(text_of({item("a.bin", 1, at_64_image())}, "shelf/"), "rtcmend show shelf/a.bin\n"));
}

TEST_CASE("where no image is sound, the history says so and what to do instead") {
  const Image broken = with_bytes(at_64_image(), {{0x2F, 0x68}});
  const std::string text = text_of({item("a.bin", 1, broken)});
  CHECK(has(text, "  2031-05-01  a.bin  Settings broken; the clock is right.\n"));
  CHECK(
      text.ends_with("\nNo sound image is among them.\n"
                     "Try: rtcmend compose, from what is fitted in the machine.\n"));
  const Layout layout = built_in_layout("at");
  CHECK(history_json(history({item("a.bin", 1, broken)}, layout), layout)["last_good"].is_null());
}

TEST_CASE("a later image that is not sound leaves the earlier good one the last") {
  const std::string text =
      text_of({item("a.bin", 1, at_64_image()),
               item("b.bin", 2, with_bytes(at_64_image(), {{0x3F, 0x01}, {0x2F, 0x68}}))});
  CHECK(has(text, "              bytes of no setting: 3Fh\n"));
  CHECK(has(text, "\nLast good image: a.bin, 2031-05-01.\n"));
}

TEST_CASE("notes are shown without empty lines, and a date taken from the file is marked") {
  HistoryItem note = item("read.txt", 1, std::nullopt);
  note.note = "New cell.\n\n  Fitted by Ilse. \n";
  note.dated_by_name = false;
  HistoryItem unread = item("c.bin", 2, std::nullopt);
  unread.problem = "it is cut short";
  const std::string text = text_of({note, unread});
  CHECK(has(text,
            "  2031-05-01  read.txt  note (dated by its file)\n"
            "              New cell.\n"
            "              Fitted by Ilse.\n"
            "  2031-05-02  c.bin  not read\n"
            "              it is cut short\n"));
  const Layout layout = built_in_layout("at");
  const Json json = history_json(history({note, unread}, layout), layout);
  CHECK(json["entries"][0]["dated_by"] == "file");
  CHECK(json["entries"][0]["sound"].is_null());
  CHECK(json["entries"][1]["dated_by"] == "name");
  CHECK(json["entries"][1]["problem"] == "it is cut short");
  CHECK(json["entries"][1]["note"].is_null());
}
