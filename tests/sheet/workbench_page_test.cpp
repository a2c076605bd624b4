#include "sheet/workbench_page.h"

#include <catch2/catch.hpp>

#include "base/error.h"

using namespace rtcmend;

namespace {

const std::string empty_page =
    R"(<body><script type="application/json" id="given"></script><p>end</p></body>)";

}  // namespace

TEST_CASE("a dump stands on the page with its name and how it is to be read") {
  const OnThePage given{"bramble.bin", std::string("\x00\xFF<", 3), {{"form", "raw"}}, "at", ""};
  // By hand: 00, FF, and 3Ch for the "<"; the keys in the order of the alphabet.
  CHECK(page_with(empty_page, given) ==
        R"(<body><script type="application/json" id="given">)"
        R"({"content":"00ff3c","how":{"form":"raw"},"layout":"at","name":"bramble.bin"})"
        R"(</script><p>end</p></body>)");
}

TEST_CASE("nothing in a name or a layout ends the element that it stands in") {
  const OnThePage given{
      "</script><script>alert(1)</script>", "", {}, "mine", "{\"title\":\"<!--\"}"};
  const std::string page = page_with(empty_page, given);
  // The two tags of the page's own that are left, and no third.
  CHECK(page.find("</script>") == page.rfind("</script>"));
  CHECK(page.find("<!--") == std::string::npos);
  CHECK(page.find(R"(\u003c/script>\u003cscript>alert(1))") != std::string::npos);
}

TEST_CASE("a name that is no UTF-8 still makes a page") {
  const std::string page = page_with(empty_page, {"d\xFFmp", "", {}, "", ""});
  CHECK(page.find(R"("name":"d\ufffdmp")") != std::string::npos);
}

TEST_CASE("what is no workbench page is refused") {
  CHECK_THROWS_AS(page_with("<html></html>", {}), Error);
  CHECK_THROWS_AS(page_with(empty_page + empty_page, {}), Error);
}
