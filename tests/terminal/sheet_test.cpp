#include "terminal/sheet.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/text.h"
#include "forms/rows.h"
#include "render/small_layout.h"

using namespace rtcmend;
using namespace rtcmend::test;
using Catch::Matchers::Contains;

namespace {

Sheet about(const Shown& shown) {
  return {"", "", shown.card(), forecast(shown.examination, shown.layout), {}};
}

}  // namespace

TEST_CASE("a sheet in plain text has no more than 80 columns and nothing but ASCII") {
  const Shown shown(at_64_image());
  Sheet sheet = about(shown);
  sheet.plan = usual_plan({2026, 11, 30, 12, 0, 0});
  sheet.sources = true;
  const std::string text = sheet_text(sheet);
  for (const std::string_view line : lines(text)) {
    CAPTURE(std::string(line));
    CHECK(line.size() <= 80);
  }
  CHECK(std::all_of(text.begin(), text.end(),
                    [](char c) { return c == '\n' || c == '\f' || (c >= ' ' && c <= '~'); }));
}

TEST_CASE("a sheet in plain text says what the chip says, and on the next page has its bytes") {
  const Shown shown(at_64_image());
  const std::string text = sheet_text(about(shown));
  const auto page_end = text.find('\f');
  REQUIRE(page_end != std::string::npos);
  CHECK_THAT(text.substr(0, page_end), Contains("Cell, volts measured ____") &&
                                           Contains("640 KiB") && Contains("2031-05-14 09:30:00"));
  const std::string second = text.substr(page_end);
  const auto rows = second.find("00: "), behind = second.find("Address, sixteen");
  CHECK(read_dump(second.substr(rows, behind - rows), "sheet", Form::rows).image.at(0x12) == 0xF0);
  CHECK_THAT(second, Contains("Switch off AND unplug") && !Contains("not sound"));
}

TEST_CASE("in plain text too an image that is not sound says so above its bytes") {
  const Shown shown(with_bytes(at_64_image(), {{0x2F, 0x68}}));
  const std::string text = sheet_text(about(shown));
  const auto warning = text.find("not sound, and copying it does not mend it");
  REQUIRE(warning != std::string::npos);
  CHECK(warning > text.find('\f'));
  CHECK(warning < text.find("00: ", text.find('\f')));
}

TEST_CASE("bytes of passwords are nowhere on a sheet in plain text") {
  const Shown shown(with_bytes(at_64_image(), {{0x38, 0xA7}}));
  CHECK_THAT(sheet_text(about(shown)), !Contains("A7") && Contains("?? ?? ?? ?? ?? ?? ?? ?? ="));
}
