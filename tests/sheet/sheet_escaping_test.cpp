#include <catch2/catch.hpp>

#include "render/small_layout.h"
#include "sheet/sheet.h"
#include "support/page_reader.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

const std::string script = "<script>alert(1)</script>";
const std::string breakout = "\"'></title></style><img src=x onerror=alert(1)>";

/// A layout whose every text is an attack.
Layout hostile_layout() {
  Layout layout = small_layout();
  layout.id = script;
  layout.title = breakout;
  layout.sources = {script, breakout};
  layout.notes = {script, breakout};
  for (Field& field : layout.fields) {
    field.label = script;
    field.group = breakout;
    field.note = breakout;
    field.source = script;
    field.unit = script;
    field.id = breakout;
    for (Choice& choice : field.choices) choice.name = script;
  }
  for (Check& check : layout.checks) {
    check.id = breakout;
    check.source = script;
  }
  return layout;
}

struct Hostile {
  explicit Hostile(const Image& image)
      : dump{image, Form::raw, breakout, script + breakout},
        layout(hostile_layout()),
        examination(examine(dump.image, layout)) {}
  std::string page() const {
    return sheet_html({script,
                       breakout + "\n" + script,
                       {name, dump, layout, examination},
                       forecast(examination, layout),
                       suspects(dump.image, layout)});
  }

  std::string name = "dump" + script + breakout;
  Dump dump;
  Layout layout;
  Examination examination;
};

}  // namespace

TEST_CASE("markup in layouts, notes, titles and file names does nothing on a sheet") {
  for (const Image& image : {at_64_image(), with_bytes(at_64_image(), {{0x2F, 0x68}, {0x10, 0x90}}),
                             without(at_64_image(), {0x00, 0x20})}) {
    const Hostile hostile(image);
    const std::string text = hostile.page();
    const auto page = read_page(text);  // throws when an attack unbalances the page
    CHECK(named(page, "script").empty());
    CHECK(named(page, "img").empty());
    CHECK(named(page, "style").size() == 1);
    CHECK(named(page, "h1").size() == 1);
    for (const PageElement& element : page)
      for (const auto& [name, value] : element.attributes) CHECK_FALSE(name.starts_with("on"));
    CHECK(plain(named(page, "h1").front().inside) == script);
    CHECK(text.find("&lt;script&gt;alert(1)&lt;/script&gt;") != std::string::npos);
  }
}

TEST_CASE("a note with quotes is shown as it was written") {
  const Shown shown(at_64_image());
  const std::string text = sheet_html({"", R"(The "blue" one & Anna's <3)", shown.card(), {}, {}});
  CHECK(text.find("The &quot;blue&quot; one &amp; Anna&#39;s &lt;3") != std::string::npos);
}

TEST_CASE("a file name with markup in it stays a name") {
  Shown shown(at_64_image());
  shown.name = "<b>dump</b>.bin";
  const auto page = read_page(sheet_html({"", "", shown.card(), {}, {}}));
  // The last slash ends the folders, as it does in any path.
  CHECK(plain(named(page, "h1").front().inside) == "b>.bin");
  shown.name = "<b onclick='x'>dump.bin";
  CHECK(plain(named(read_page(sheet_html({"", "", shown.card(), {}, {}})), "h1").front().inside) ==
        "<b onclick='x'>dump.bin");
}
