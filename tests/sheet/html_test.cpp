#include "sheet/html.h"

#include <catch2/catch.hpp>

using namespace rtcmend;

TEST_CASE("markup in a text stays words") {
  CHECK(words("<script>alert(1)</script>").text() == "&lt;script&gt;alert(1)&lt;/script&gt;");
  CHECK(words("Bramble & Thistle").text() == "Bramble &amp; Thistle");
  CHECK(words("&lt;").text() == "&amp;lt;");
}

TEST_CASE("quotes in an attribute do not end it") {
  CHECK(element("p", {{"title", "\" onclick=\"f()"}}, "x").text() ==
        "<p title=\"&quot; onclick=&quot;f()\">x</p>");
  CHECK(element("p", {{"title", "' onclick='"}}, "x").text() ==
        "<p title=\"&#39; onclick=&#39;\">x</p>");
  CHECK(lone("line", {{"x1", "\"/><b>"}}).text() == "<line x1=\"&quot;/&gt;&lt;b&gt;\"/>");
}

TEST_CASE("what does not print is written out") {
  CHECK(words(std::string_view("a\0b", 3)).text() == "a\\x00b");
  CHECK(words("\x1b[31m").text() == "\\x1B[31m");
  CHECK(words("\xff").text() == "\\xFF");
  // U+202E turns the reading direction round, so that a name seems to end otherwise.
  CHECK(words("a\u202Eb").text() == "a\\u{202E}b");
}

TEST_CASE("letters of every language stay as they are") {
  CHECK(words("Gr\u00FC\u00DFe \u65E5\u672C").text() == "Gr\u00FC\u00DFe \u65E5\u672C");
}

TEST_CASE("elements nest, and only their texts are escaped") {
  CHECK(element("ul", element("li", "a < b") + element("li", "c")).text() ==
        "<ul><li>a &lt; b</li><li>c</li></ul>");
  CHECK(joined({words("a"), words("b"), words("c")}, own_markup(", ")).text() == "a, b, c");
}

TEST_CASE("a text of several lines keeps them") {
  CHECK(word_lines("one\r\n<two>\nthree").text() == "one<br>&lt;two&gt;<br>three");
}
