#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

nlohmann::json json_of(const Ran& ran) {
  return nlohmann::json::parse(ran.out);
}

}  // namespace

TEST_CASE("plan without options is the commonest case, cautions first") {
  const Workbench bench;
  const Ran ran = bench.run({"plan", "--fitted", "2031-05-14"});
  CHECK(ran.code == 0);
  CHECK(ran.out.find("Cautions, before anything else\n  Lithium cell") == 0);
  CHECK(ran.out.find("Expected life: 10.0 years, limited by its shelf life") != std::string::npos);
  CHECK(ran.out.find("33.9 years, both together") != std::string::npos);
  CHECK(ran.out.find("replace it by ....... 2039-05-14, when fitted on 2031-05-14") !=
        std::string::npos);
}

TEST_CASE("plan's JSON holds the figures of the two known cases") {
  const Workbench bench;
  const auto half =
      json_of(bench.run({"plan", "--capacity", "225", "--current", "500nA", "--json"}));
  CHECK(half["years"] == 10.0);
  CHECK(half["limited_by"] == "shelf-life");
  CHECK(half["charge_years"].get<double>() == Approx(33.9).margin(0.05));
  CHECK(half["microamps"].get<double>() == Approx(0.757).margin(0.0005));
  const auto five = json_of(bench.run({"plan", "--current", "5uA", "--json"}));
  CHECK(five["years"].get<double>() == Approx(4.9).margin(0.05));
  CHECK(five["limited_by"] == "charge");
  CHECK(five["microamps"].get<double>() == Approx(5.257).margin(0.0005));
}

TEST_CASE("what makes no sense gets a clear error or a clear verdict") {
  const Workbench bench;
  const auto refused = [&](std::vector<std::string> words, const char* where, const char* why) {
    words.insert(words.begin(), "plan");
    const Ran ran = bench.run(std::move(words));
    INFO(ran.err);
    CHECK(ran.code == 2);
    CHECK(complains(ran, where, why));
  };
  refused({"--capacity", "-225"}, "--capacity", "1 and 10,000 mAh");
  refused({"--capacity", "nan"}, "--capacity", "is not a number");
  refused({"--current", "nan"}, "--current", "is not a number");
  refused({"--current", "500"}, "--current", "needs its unit");
  refused({"--current", "-5uA"}, "--current", "more than 0");
  refused({"--temperature", "200"}, "--temperature", "-20 to 70 C");
  refused({"--powered", "1.5"}, "--powered", "no share");
  refused({"--cell", "CR2023"}, "--cell", "2032");
  refused({"--cell", "LIR2032"}, "--cell", "rechargeable");
  refused({"--diode", "zener"}, "--diode", "none, silicon, schottky");
  refused({"--part", "DS12878"}, "--part", "DS12887");
  const Ran weak = bench.run({"plan", "--volts", "1.5"});
  CHECK(weak.code == 1);
  CHECK(weak.out.find("Too low: even a fresh cell does not reach") != std::string::npos);
  const Ran charger = bench.run({"plan", "--part", "DS12CR887"});
  CHECK(charger.code == 1);
  CHECK(charger.out.find("No plain lithium cell may be on this part") != std::string::npos);
}

TEST_CASE("a minute ahead after thirty days is 23.1 ppm, from dumps as from typed times") {
  const Workbench bench;
  const Ran typed = bench.run({"drift", "2031-05-01T12:00:00", "2031-05-31T12:01:00", "--at",
                               "2031-05-01T12:00:00", "--at", "2031-05-31T12:00:00"});
  CHECK(typed.code == 0);
  CHECK(typed.out.find("The clock gains 2.00 s a day, 60 s in 30 days: +23.1 ppm, give or take "
                       "0.8.\nJust at the limit") == 0);
  bench.put("first.bin", at_64_bytes());
  auto second = at_64_bytes();
  second[0x00] = 0x30;  // 13 June, 09:31:00 + 30 s = a minute and a half ahead of 09:30
  second[0x02] = 0x31;
  second[0x07] = 0x13;
  second[0x08] = 0x06;
  bench.put("second.bin", second);
  const auto told =
      json_of(bench.run({"drift", "first.bin", "second.bin", "--at", "2031-05-14T09:30:00", "--at",
                         "2031-06-13T09:30:00", "--json"}));
  CHECK(told["seconds_per_month"].get<double>() == Approx(90));
  CHECK(told["ppm"].get<double>() == Approx(34.7).margin(0.05));
  CHECK(told["verdict"] == "outside");
}

TEST_CASE("a log is kept, read back, and not filled twice") {
  const Workbench bench;
  const Ran first = bench.run(
      {"drift", "2031-05-01T12:00:00", "--at", "2031-05-01T12:00:00", "--log", "clock.log"});
  CHECK(first.code == 0);
  CHECK(first.out.find("First reading noted") == 0);
  const Ran second = bench.run(
      {"drift", "2031-05-31T12:00:30", "--at", "2031-05-31T12:00:00", "--log", "clock.log"});
  CHECK(second.code == 0);
  CHECK(second.out.find("gains 1.00 s a day, 30 s in 30 days") != std::string::npos);
  const std::string kept = bench.get("clock.log");
  CHECK(kept ==
        "{\"shown\":\"2031-05-01T12:00:00\",\"reference\":\"2031-05-01T12:00:00\","
        "\"daylight_saving\":false,\"running\":null}\n"
        "{\"shown\":\"2031-05-31T12:00:30\",\"reference\":\"2031-05-31T12:00:00\","
        "\"daylight_saving\":false,\"running\":null}\n");
  bench.run({"drift", "2031-05-31T12:00:30", "--at", "2031-05-31T12:00:00", "--log", "clock.log"});
  CHECK(bench.get("clock.log") == kept);
  CHECK(bench.run({"drift", "--log", "clock.log"}).out == second.out);
}

TEST_CASE("drift refuses readings without their times, and a clock that says nothing") {
  const Workbench bench;
  CHECK(complains(bench.run({"drift", "2031-05-01T12:00:00"}), "--at",
                  "1 reading came with no reference times"));
  CHECK(complains(bench.run(std::vector<std::string>{"drift"}), "drift", "it needs readings"));
  auto dead = at_64_bytes();
  dead[0x08] = 0x00;
  bench.put("dead.bin", dead);
  const Ran ran = bench.run({"drift", "dead.bin", "--at", "2031-05-01T12:00:00"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "dead.bin", "its clock says no date and time"));
  bench.put("bad.log", "nonsense\n");
  CHECK(complains(bench.run({"drift", "--log", "bad.log"}), "bad.log:1", ""));
}

TEST_CASE("compare judges what the time without power did") {
  const Workbench bench;
  bench.put("wanted.bin", at_64_bytes());
  auto found = at_64_bytes();
  found[0x02] = 0x05;
  found[0x04] = 0x10;
  bench.put("kept.bin", found);
  found[0x33] = 0x04;
  bench.put("bit.bin", found);
  const Ran kept = bench.run({"compare", "wanted.bin", "kept.bin", "--after-power-off", "30m"});
  CHECK(kept.code == 0);
  CHECK(kept.out.find("Kept: every byte that matters") != std::string::npos);
  const Ran lost =
      bench.run({"compare", "wanted.bin", "bit.bin", "--after-power-off", "30m", "--json"});
  CHECK(lost.code == 1);
  CHECK(json_of(lost)["retention"]["verdict"] == "few-bits-lost");
  CHECK(json_of(lost)["retention"]["bits"][0]["at"] == 0x33);
  CHECK(bench.run({"compare", "wanted.bin", "kept.bin", "--after-power-off", "later"}).code == 2);
  CHECK(bench.run({"compare", "wanted.bin", "kept.bin", "--again", "kept.bin"}).code == 2);
}

TEST_CASE("a machine's folder is told in the order of its dates") {
  const Workbench bench;
  bench.put("2031-05-14.bin", at_64_bytes());
  auto later = at_64_bytes();
  later[0x10] = 0x00;
  later[0x2F] = 0x27;
  bench.put("2032-01-02.bin", later);
  bench.put("2031-06-01.note", "New cell, 2032.\n");
  later[0x2F] = 0x00;
  bench.put("2033-01-02.bin", later);
  bench.put("2033-02-01 scribble.txt", "no bytes at all\n");
  const Ran ran = bench.run({"history", "."});
  CHECK(ran.code == 1);
  CHECK(ran.out.find(".: 3 dumps, 1 note; layout at-64\n") == 0);
  CHECK(ran.out.find("2032-01-02.bin  sound\n              floppy_a: 1.44M -> none\n") !=
        std::string::npos);
  CHECK(ran.out.find("2031-06-01.note  note\n              New cell, 2032.\n") !=
        std::string::npos);
  CHECK(ran.out.find("2033-02-01 scribble.txt  not read\n") != std::string::npos);
  CHECK(ran.out.find("Last good image: 2032-01-02.bin, 2032-01-02.\n"
                     "Start from it: rtcmend show ./2032-01-02.bin\n") != std::string::npos);
  CHECK(json_of(bench.run({"history", ".", "--json"}))["last_good"] == "2032-01-02.bin");
  CHECK(bench.run({"history", "nowhere"}).code == 2);
}
