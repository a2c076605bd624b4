// The calls of the page, without a browser: what goes in and comes out of the border.
#include "page/workbench.h"

#include <catch2/catch.hpp>

#include "page/image_text.h"

using namespace rtcmend;

namespace {

Json call(Workbench& bench, const Json& request) {
  return Json::parse(bench.call(request.dump()));
}

// A machine of the AT class, made by hand: floppies 1.2M and 1.44M, disk 39, 640 and 3456 KiB. The
// sum over 10h-2Dh is 24+F0+27+69+80+02+80+0D = 02B3h (low bytes added by hand).
const std::string sound_image =
    "41002200100007141126"  // 10:22:41, Saturday 2026-11-14
    "26020080"
    "0000"
    "2400F00069800280"
    "0D27000000000000"
    "0000000000000000"
    "000000000000"
    "02B3"
    "800D2080"
    "000000000000000000000000";

Json about(const std::string& image) {
  return {{"image", image}, {"layout", "at"}};
}

Json with(Json request, const Json& more) {
  request.update(more);
  return request;
}

std::string changed(Workbench& bench, const std::string& image, const Json& more) {
  const Json answer = call(bench, with(about(image), more));
  INFO(answer.dump());
  REQUIRE(answer["ok"] == true);
  return answer["image"];
}

const Json& named(const Json& list, const std::string& id) {
  for (const Json& one : list)
    if (one["id"] == id) return one;
  FAIL("nothing is called " << id);
  return list;
}

}  // namespace

TEST_CASE("an image crosses the border as hex digits, unknown bytes as question marks") {
  Image image(64);
  image.set(0x0E, 0xA5);
  const std::string text = image_text(image);
  CHECK(text.size() == 128);
  CHECK(text.substr(28, 4) == "A5??");
  CHECK(image_from(text) == image);
}

TEST_CASE("bytes of any value cross the border and come back") {
  std::string bytes("\x00\x7F\x80\xFF", 4);
  CHECK(hex_text(bytes) == "007F80FF");
  CHECK(bytes_from_hex("007f80ff") == bytes);
}

TEST_CASE("a call that cannot be read is refused, not thrown") {
  Workbench bench;
  CHECK(Json::parse(bench.call("{"))["ok"] == false);
  CHECK(Json::parse(bench.call("[]"))["ok"] == false);
  CHECK(call(bench, {{"do", "dance"}})["ok"] == false);
  CHECK(call(bench, {{"do", "look"}, {"image", "00"}, {"layout", "at"}})["ok"] == false);
  CHECK(call(bench, {{"do", "look"}, {"image", sound_image}, {"layout", "none"}})["ok"] == false);
}

TEST_CASE("a typed dump is opened, and its layout identified") {
  Workbench bench;
  const Json answer =
      call(bench, {{"do", "open"}, {"name", "typed"}, {"content", hex_text(sound_image + "\n")}});
  INFO(answer.dump());
  REQUIRE(answer["ok"] == true);
  CHECK(answer["image"] == sound_image);
  CHECK(answer["form"] == "hex");
  CHECK(answer["layout"] == "at");
}

TEST_CASE("what is no dump is refused with a reason") {
  Workbench bench;
  const Json answer =
      call(bench, {{"do", "open"}, {"name", "letter.txt"}, {"content", hex_text("Dear friend,")}});
  CHECK(answer["ok"] == false);
  CHECK_FALSE(answer["what"].get<std::string>().empty());
}

TEST_CASE("a look says what every byte, field and check is") {
  Workbench bench;
  const Json look = call(bench, with(about(sound_image), {{"do", "look"}}));
  INFO(look.dump());
  REQUIRE(look["ok"] == true);
  CHECK(look["sound"] == true);
  CHECK(look["plan"].size() == 64);
  const Json& cell = look["plan"][0x10];
  CHECK(cell["text"] == "24");
  CHECK(cell["owner"] == "group");
  CHECK(cell["fields"] == Json({"floppy_a", "floppy_b"}));
  CHECK(cell["over"] == Json({"sum-10-2d"}));
  CHECK(look["plan"][0x2E]["owner"] == "check");
  CHECK(look["plan"][0x01]["owner"] == "alarm");
  CHECK(look["plan"][0x0B]["owner"] == "register");
  CHECK(look["checks"][0]["stored"] == 0x02B3);
}

TEST_CASE("each field has the control that fits it") {
  Workbench bench;
  const Json fields = call(bench, with(about(sound_image), {{"do", "look"}}))["fields"];
  const Json& floppy = named(fields, "floppy_a");
  CHECK(floppy["control"]["kind"] == "choice");
  CHECK(floppy["control"]["choices"][1] == "360K");
  CHECK(floppy["entry"] == "1.2M");
  CHECK(floppy["bits"] == "10h bits 7-4");
  const Json& disk = named(fields, "disk_0_type");
  CHECK(disk["control"]["kind"] == "number");
  CHECK(disk["control"]["most"] == 255);
  CHECK(disk["entry"] == "39");
  const Json& memory = named(fields, "extended_memory_kib");
  CHECK(memory["control"]["unit"] == "KiB");
  CHECK(memory["entry"] == "3456");
  CHECK(named(fields, "coprocessor")["control"]["kind"] == "switch");
}

TEST_CASE("an edit leaves the stored check alone until it is sealed") {
  Workbench bench;
  const std::string edited =
      changed(bench, sound_image, {{"do", "set"}, {"field", "floppy_a"}, {"entry", "360K"}});
  // 10h: 24h becomes 14h; 2Eh-2Fh still hold 02B3h.
  CHECK(edited.substr(0x10 * 2, 2) == "14");
  CHECK(edited.substr(0x2E * 2, 4) == "02B3");
  CHECK(call(bench, with(about(edited), {{"do", "look"}}))["sound"] == false);
  // 10h less than before: 02A3h.
  const std::string sealed = changed(bench, edited, {{"do", "seal"}});
  CHECK(sealed.substr(0x2E * 2, 4) == "02A3");
  CHECK(call(bench, with(about(sealed), {{"do", "look"}}))["sound"] == true);
}

TEST_CASE("what follows from an edited field is brought into line") {
  Workbench bench;
  const std::string edited =
      changed(bench, sound_image, {{"do", "set"}, {"field", "floppy_b"}, {"entry", "none"}});
  // 14h: bits 7-6 count the drives, less one (RBIL61 C0009).
  const Json look = call(bench, with(about(edited), {{"do", "look"}}));
  CHECK(named(look["fields"], "floppy_count")["entry"] == "1");
}

TEST_CASE("an illegal entry is refused with the legal ones") {
  Workbench bench;
  const Json answer = call(
      bench, with(about(sound_image), {{"do", "set"}, {"field", "floppy_a"}, {"entry", "8-inch"}}));
  CHECK(answer["ok"] == false);
  CHECK(answer.dump().find("360K") != std::string::npos);
}

TEST_CASE("a byte is set by two hex digits and nothing else") {
  Workbench bench;
  CHECK(changed(bench, sound_image, {{"do", "byte"}, {"at", 0x20}, {"digits", "5a"}})
            .substr(0x20 * 2, 2) == "5A");
  for (const char* odd : {"", "G0", "123", "-1"})
    CHECK(call(bench, with(about(sound_image),
                           {{"do", "byte"}, {"at", 0x20}, {"digits", odd}}))["ok"] == false);
  CHECK(call(bench, with(about(sound_image),
                         {{"do", "byte"}, {"at", 64}, {"digits", "00"}}))["ok"] == false);
}

TEST_CASE("the clock is set with its weekday and century") {
  Workbench bench;
  const std::string set =
      changed(bench, sound_image, {{"do", "clock"}, {"time", "1999-12-31T23:59:58"}});
  // A Friday: 06h counts Sunday as 1.
  CHECK(set.substr(0, 20) == "58005900230006311299");
  CHECK(set.substr(0x32 * 2, 2) == "19");
}

TEST_CASE(
    "setting the clock says that it counts as PC firmware reads it, where it did not before") {
  Workbench bench;
  const Json request{{"do", "clock"}, {"time", "1999-12-31T23:59:58"}};
  CHECK(call(bench, with(about(sound_image), request))["told"] == "");
  std::string twelve_hours = sound_image;
  twelve_hours.replace(0x0B * 2, 2, "00");
  const Json answer = call(bench, with(about(twelve_hours), request));
  CHECK(answer["told"] ==
        "The clock now counts in BCD on a 24-hour dial, as PC firmware reads it; register B had "
        "BCD on a 12-hour dial.");
  CHECK(answer["image"].get<std::string>().substr(8, 2) == "23");
}

TEST_CASE("passwords are never shown, compared or changed") {
  Workbench bench;
  // crc+slots-19 keeps a password area at 38h-3Fh.
  std::string image = sound_image;
  image.replace(0x38 * 2, 16, "DEADBEEFDEADBEEF");
  const Json request{{"image", image}, {"layout", "crc+slots-19"}};
  const Json look = call(bench, with(request, {{"do", "look"}}));
  REQUIRE(look["ok"] == true);
  CHECK(look["plan"][0x38]["text"] == "**");
  CHECK(look.dump().find("DEADBEEF") == std::string::npos);
  CHECK(named(look["fields"], "password_area")["text"] == "set");
  CHECK(call(bench, with(request, {{"do", "byte"}, {"at", 0x38}, {"digits", "00"}}))["ok"] ==
        false);
  const Json compared =
      call(bench, with(request, {{"do", "compare"}, {"content", hex_text(sound_image + "\n")}}));
  REQUIRE(compared["ok"] == true);
  for (const Json& one : compared["differences"]) {
    CHECK(one["wanted"] == nullptr);
    CHECK(one["found"] == nullptr);
  }
}

TEST_CASE("an image that is not sound is only saved when that is meant") {
  Workbench bench;
  std::string image = sound_image;
  image.replace(0x10 * 2, 2, "14");
  const Json request = with(about(image), {{"do", "save"}, {"form", "raw"}});
  CHECK(call(bench, request)["ok"] == false);
  const Json saved = call(bench, with(request, {{"anyway", true}}));
  REQUIRE(saved["ok"] == true);
  CHECK(saved["content"] == image);
}

TEST_CASE("everything that carries an image into the machine can be had") {
  Workbench bench;
  const Json offer = call(bench, {{"do", "offer"}});
  REQUIRE(offer["ways"].size() == 5);
  REQUIRE(offer["cautions"].size() == 9);
  CHECK(offer["cautions"][0].get<std::string>().starts_with("Switch off first: Switch off AND"));
  for (const Json& way : offer["ways"]) {
    const Json made = call(bench, with(about(sound_image),
                                       {{"do", "deliver"}, {"way", way["way"]}, {"disk", "360K"}}));
    INFO(way.dump());
    REQUIRE(made["ok"] == true);
    CHECK(made["content"].get<std::string>().size() > 100);
    CHECK_FALSE(made["steps"].empty());
  }
  // 360K: 40 tracks, 2 sides, 9 sectors of 512 bytes.
  const Json floppy =
      call(bench,
           with(about(sound_image), {{"do", "deliver"}, {"way", "boot-floppy"}, {"disk", "360K"}}));
  CHECK(floppy["content"].get<std::string>().size() == 2 * 368640);
}

TEST_CASE("what reads a chip out can be had without an image") {
  Workbench bench;
  CHECK(call(bench, {{"do", "capture"}, {"way", "debugger-script"}})["ok"] == true);
  CHECK(call(bench, {{"do", "capture"}, {"way", "keyboard-program"}})["ok"] == true);
  CHECK(call(bench, {{"do", "capture"}, {"way", "dos-program"}, {"size", "65"}})["ok"] == false);
}

TEST_CASE("a card begins with the layout's defaults and the time given") {
  Workbench bench;
  const Json made =
      call(bench, {{"do", "compose"}, {"layout", "at"}, {"time", "2031-05-14T09:30:00"}});
  REQUIRE(made["ok"] == true);
  const Json look = call(bench, with(about(made["image"]), {{"do", "look"}}));
  CHECK(look["sound"] == true);
  CHECK(look["clock"]["iso"] == "2031-05-14T09:30:00");
}

TEST_CASE("a machine description is composed when it is opened") {
  Workbench bench;
  const std::string text =
      R"({"layout": "at", "clock": "2026-11-25T10:00:00", "set": {"disk_0_type": 39}})";
  const Json made = call(bench, {{"do", "open"}, {"name", "y.json"}, {"content", hex_text(text)}});
  INFO(made.dump());
  REQUIRE(made["ok"] == true);
  CHECK(made["composed"] == true);
  CHECK(made["layout"] == "at");
}

TEST_CASE("a layout file joins the library, and a bad one is refused with its place") {
  Workbench bench;
  const std::string text = R"({"layout": "mine", "title": "<b>Mine</b>",
    "fields": [{"id": "x", "label": "<script>1</script>", "group": "g", "at": "20", "number": {},
                "source": "measured"}]})";
  const Json read =
      call(bench, {{"do", "read-layout"}, {"name", "mine.json"}, {"content", hex_text(text)}});
  INFO(read.dump());
  REQUIRE(read["ok"] == true);
  const Json judged = call(bench, {{"do", "look"}, {"image", sound_image}, {"layout", "mine"}});
  CHECK(judged["ok"] == true);
  CHECK(judged.dump().find("(from mine.json, not built in)") != std::string::npos);
  const Json bad =
      call(bench, {{"do", "read-layout"}, {"name", "bad.json"}, {"content", hex_text("{}")}});
  CHECK(bad["ok"] == false);
  // What a dump names must mean one thing: a stranger's file does not take a built-in id.
  std::string taken = text;
  taken.replace(taken.find("\"mine\""), 6, "\"at\"");
  const Json refused =
      call(bench, {{"do", "read-layout"}, {"name", "taken.json"}, {"content", hex_text(taken)}});
  CHECK(refused["ok"] == false);
  CHECK(refused["what"] == "a built-in layout has this id");
}

TEST_CASE("what a layout says to be told with every image is told on the page") {
  Workbench bench;
  const std::string file = R"({"layout": "mine", "of": "at", "title": "Mine",
      "when_writing": ["This layout is a draft."]})";
  REQUIRE(call(bench,
               {{"do", "read-layout"}, {"name", "mine.json"}, {"content", hex_text(file)}})["ok"] ==
          true);
  const Json look = call(bench, {{"do", "look"}, {"image", sound_image}, {"layout", "mine"}});
  CHECK(look["layout"]["whenWriting"] == Json{"This layout is a draft."});
}

TEST_CASE("one wrong bit is named as a suspect, and taken back") {
  Workbench bench;
  std::string image = sound_image;
  image.replace(0x12 * 2, 2, "F8");  // bit 3 of 12h
  const Json all = call(bench, with(about(image), {{"do", "suspects"}}))["suspects"];
  const Json& bit = named(all, "bit-12-3");
  CHECK(bit["changes"][0]["to"] == 0xF0);
  CHECK(changed(bench, image, {{"do", "accept"}, {"suspect", "bit-12-3"}}) == sound_image);
}

TEST_CASE("what a second dump leaves no choice about is what was read, once it is accepted") {
  Workbench bench;
  std::string first = sound_image;
  first.replace(0x12 * 2, 2, "F8");  // bit 3 of 12h
  const Json opened = call(bench, {{"do", "open"}, {"name", "first.bin"}, {"content", first}});
  Json request = about(first);
  request["read"] = opened["read"];
  request["read"]["again"] = sound_image;
  CHECK(call(bench, with(request, {{"do", "look"}}))["misread"] == true);
  const Json made = call(bench, with(request, {{"do", "accept"}, {"suspect", "vote-12-F0"}}));
  CHECK(made["image"] == sound_image);
  Json after = about(sound_image);
  after["read"] = made["read"];
  CHECK(call(bench, with(after, {{"do", "look"}}))["misread"] == false);
  after["read"] = request["read"];
  CHECK(call(bench, with(after, {{"do", "look"}}))["misread"] == true);
}

TEST_CASE("halves that repeat each other are judged on the page as on the command line") {
  Workbench bench;
  const auto look_at = [&](const std::string& half, const char* layout) {
    const Json opened =
        call(bench, {{"do", "open"}, {"name", "twice.bin"}, {"content", half + half}});
    REQUIRE(opened["ok"] == true);
    CHECK(opened["size"] == 64);
    const Json request = {{"image", opened["image"]}, {"layout", layout}, {"read", opened["read"]}};
    const Json look = call(bench, with(request, {{"do", "look"}}));
    return std::pair(request, look);
  };
  // A 64-byte part was read as 128: that is said, and stands in the way of nothing.
  const auto [sound, seen] = look_at(sound_image, "at");
  named(seen["findings"], "halves-mirrored");
  CHECK(call(bench, with(sound, {{"do", "save"}, {"form", "raw"}}))["ok"] == true);
  // The upper half of a larger chip twice: address line 6 was stuck at 1, nothing is written.
  std::string upper;
  for (int i = 0; i < 16; ++i) upper += "9CE1A77B";
  const auto [stuck, said] = look_at(upper, "chip");
  named(said["findings"], "address-line-stuck");
  CHECK(call(bench, with(stuck, {{"do", "save"}, {"form", "raw"}}))["ok"] == false);
}

TEST_CASE("a dump read with an offset is put straight") {
  Workbench bench;
  const Json answer = call(bench, {{"do", "undo-misread"},
                                   {"image", sound_image},
                                   {"read", {{"image", sound_image}}},
                                   {"what", "nibbles"}});
  REQUIRE(answer["ok"] == true);
  CHECK(answer["image"].get<std::string>().substr(0, 4) == "1400");
  CHECK(answer["read"]["image"] == answer["image"]);
}

TEST_CASE("numbers on a screen are explained, tied to a dump where there is one") {
  Workbench bench;
  const Json alone = call(bench, {{"do", "explain"}, {"codes", "161, 163"}});
  REQUIRE(alone["codes"].size() == 2);
  CHECK(alone["codes"][0]["code"] == "161");
  CHECK(alone["codes"][0]["known"] == true);
  // Register D without its top bit: the cell is dead (MC146818A, VRT), which is what 161 is about.
  std::string dead = sound_image;
  dead.replace(26, 2, "00");
  const Json tied = call(bench, with(about(dead), {{"do", "explain"}, {"codes", "161"}}));
  CHECK_FALSE(tied["codes"][0]["causes"][0]["seen"].empty());
  CHECK(call(bench, {{"do", "explain"}, {"codes", "  "}})["ok"] == false);
  CHECK(call(bench, {{"do", "explain"}, {"codes", "x"}})["ok"] == true);
}

TEST_CASE("a fixed disk is looked up by capacity, by geometry and by its type") {
  Workbench bench;
  const auto ask = [&](const std::string& disk, const std::string& layout = "") {
    return call(bench, {{"do", "drives"}, {"disk", disk}, {"layout", layout}});
  };
  // Type 2 has 615 cylinders, 4 heads, 17 sectors (TechHelp).
  CHECK(ask("615 4 17")["matches"][0]["type"] == 2);
  CHECK(ask("615, 4, 17")["matches"][0]["fit"] == "exact");
  const Json type = ask("type 2", "at");
  REQUIRE(type["matches"].size() == 1);
  CHECK(type["matches"][0]["cylinders"] == 615);
  CHECK(ask("40 MB")["matches"].size() > 1);
  CHECK(ask("")["ok"] == false);
  CHECK(ask("type 900")["ok"] == false);
  CHECK(ask("a big one")["ok"] == false);
  CHECK(ask("40M", "chip")["ok"] == false);
}
