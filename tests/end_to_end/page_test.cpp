#include <catch2/catch.hpp>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

using Words = std::vector<std::string>;

namespace {

/// A bench with a dump, and what a browser would be started with in "browser.log".
struct Bench : Workbench {
  Bench() {
    put("in.bin", at_64_bytes());
    put("browser", "#!/bin/sh\necho \"$1\" >> " + path("browser.log") + "\n");
    REQUIRE(shell("chmod +x browser").code == 0);
  }
  Ran with_browser(const std::string& words) const {
    return shell("BROWSER=./browser \"$0\" page " + words);
  }
  std::string shown() const { return has("browser.log") ? get("browser.log") : ""; }
};

bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("page alone says where the page lies, and --open shows it there") {
  const Bench bench;
  const Ran told = bench.run(Words{"page"});
  CHECK(told.code == 0);
  CHECK(told.out.starts_with("The workbench page is "));
  CHECK(says(told.out, "index.html\n"));
  const Ran opened = bench.with_browser("--open");
  CHECK(opened.code == 0);
  CHECK(says(bench.shown(), "index.html\n"));
  CHECK(bench.files() == 3);
}

TEST_CASE("a page with a dump on it is a file of its own, which the browser shows") {
  const Bench bench;
  CHECK(bench.with_browser("in.bin -o bench.html --open --form raw").code == 0);
  CHECK(bench.shown() == bench.path("bench.html") + "\n");
  const std::string page = bench.get("bench.html");
  CHECK(says(page, R"("how":{"form":"raw"},"name":"in.bin"})"));
  // The clock's first three bytes and the weekday's, as at_64_bytes() has them, are not looked at;
  // 10h to 14h of that machine are 40 00 F0 00 0D (support/sound_images.h).
  CHECK(says(page, "4000f0000d"));
}

TEST_CASE("a page with a dump needs a name, and never replaces a file unasked") {
  const Bench bench;
  const Ran unnamed = bench.run({"page", "in.bin"});
  CHECK(unnamed.code == 2);
  CHECK(says(unnamed.err, "-o bench.html"));
  bench.put("there.html", "mine");
  CHECK(bench.run({"page", "in.bin", "-o", "there.html"}).code == 2);
  CHECK(bench.get("there.html") == "mine");
  CHECK(bench.run({"page", "in.bin", "-o", "in.bin", "--force"}).code == 2);
  CHECK(bench.run({"page", "in.bin", "-o", "there.html", "--force"}).code == 0);
}

TEST_CASE("a browser that does not start leaves the written page, and says so") {
  const Bench bench;
  const Ran written = bench.shell("BROWSER=/bin/false \"$0\" page in.bin -o bench.html --open");
  CHECK(written.code == 0);
  CHECK(says(written.err, "no browser could be started"));
  CHECK(bench.has("bench.html"));
  CHECK(bench.shell("BROWSER=/bin/false \"$0\" page --open").code == 2);
  CHECK(bench.run({"page", "in.bin", "-o", "-", "--open"}).code == 2);
}

TEST_CASE("a program that came without its page says where one is to be had") {
  const Bench bench;
  const Ran ran = bench.shell("RTCMEND_PAGE=nowhere.html \"$0\" page -o bench.html");
  CHECK(ran.code == 2);
  CHECK(says(ran.err, "nowhere.html"));
  const Ran bare = bench.shell("mkdir alone; cp \"$0\" alone/; RTCMEND_PAGE= alone/rtcmend page");
  CHECK(bare.code == 2);
  CHECK(says(bare.err, "came without its page"));
  bench.put("alone/rtcmend.html", bench.get("in.bin"));
  CHECK(bench.shell("RTCMEND_PAGE= alone/rtcmend page").out ==
        "The workbench page is " + bench.path("alone/rtcmend.html") +
            "\nOpen it in a browser, or say --open as well.\n");
  const Ran odd = bench.shell("RTCMEND_PAGE= alone/rtcmend page in.bin -o bench.html");
  CHECK(odd.code == 2);
  CHECK(says(odd.err, "not the workbench page"));
  CHECK_FALSE(bench.has("bench.html"));
}
