#include <catch2/catch.hpp>
#include <filesystem>
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
  CHECK(ran.out.find("Cautions, before anything else\n  Switch off first") == 0);
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
  for (const char* share : {"0.5", "50%", "50 %"}) {
    const auto half_on =
        json_of(bench.run({"plan", "--current", "5uA", "--powered", share, "--json"}));
    CHECK(half_on["microamps"].get<double>() == Approx(2.757).margin(0.0005));
  }
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
  const Ran weak = bench.run({"plan", "--cell", "LR44"});
  CHECK(weak.code == 1);
  CHECK(weak.out.find("Too low: even a fresh cell does not reach") != std::string::npos);
  CHECK(weak.out.find("No work is planned with this cell.") != std::string::npos);
  CHECK(weak.out.find("Expected life") == std::string::npos);
  // A pack's voltage alone makes no coin cell of it.
  refused({"--part", "MC146818", "--volts", "6"}, "--volts", "4.5V-ALKALINE has 4.5 V, not 6");
  refused({"--volts", "6"}, "--volts", "6V-LITHIUM");
  refused({"--capacity", "60", "--volts", "3.6"}, "--volts", "3.6V-NICKEL");
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
  CHECK(ran.out.find(".: 3 dumps, 1 note; layout at\n") == 0);
  CHECK(ran.out.find("2032-01-02.bin  Sound: settings proven, clock right.\n              "
                     "floppy_a: 1.44M -> none\n") != std::string::npos);
  CHECK(ran.out.find("2031-06-01.note  note\n              New cell, 2032.\n") !=
        std::string::npos);
  CHECK(ran.out.find("2033-02-01 scribble.txt  not read\n") != std::string::npos);
  CHECK(ran.out.find("Last good image: 2032-01-02.bin, 2032-01-02.\n"
                     "Start from it: rtcmend show ./2032-01-02.bin\n") != std::string::npos);
  CHECK(json_of(bench.run({"history", ".", "--json"}))["last_good"] == "2032-01-02.bin");
  CHECK(bench.run({"history", "nowhere"}).code == 2);
}

TEST_CASE("the first reading of a log speaks JSON, with nothing to tell yet") {
  const Workbench bench;
  const Ran ran = bench.run({"drift", "2031-05-01T12:00:07", "--at", "2031-05-01T12:00:00", "--log",
                             "clock.log", "--json"});
  CHECK(ran.code == 0);
  CHECK(ran.out ==
        "{\"ppm\":null,\"seconds_per_day\":null,\"seconds_per_month\":null,"
        "\"ppm_uncertainty\":null,\"verdict\":\"no-stretch\",\"events\":[],\"readings\":[{"
        "\"reference\":\"2031-05-01T12:00:00\",\"shown\":\"2031-05-01T12:00:07\",\"ahead\":7}]}\n");
}

TEST_CASE("one reading without a log tells no drift, and a time that is none is refused") {
  const Workbench bench;
  CHECK(complains(bench.run({"drift", "2031-05-01T12:00:00", "--at", "2031-05-01T12:00:00"}),
                  "drift", "one reading tells no drift"));
  CHECK(complains(bench.run({"drift", "2031-05-01T12:00:00", "--at", "noon"}), "--at",
                  "\"noon\" is not a date and time"));
  CHECK(bench.files() == 0);
}

TEST_CASE("drift says what a clock shows that cannot be measured") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  bytes[0x09] = 0x50;
  bytes[0x32] = 0x19;  // the century byte of this layout (RBIL61 CMOS 32h)
  bench.put("1950.bin", bytes);
  const auto refused = [&](const char* dump, const std::vector<std::string>& more = {}) {
    std::vector<std::string> words{"drift", dump, "--at", "2031-05-14T09:30:00"};
    words.insert(words.end(), more.begin(), more.end());
    const Ran ran = bench.run(words);
    CHECK(ran.code == 2);
    return ran.err;
  };
  CHECK(refused("1950.bin", {"--layout", "at"})
            .starts_with("rtcmend: 1950.bin: its clock says 1950-05-14T09:30:00, and the years of "
                         "a PC are 1980 to 2099\n"));
  bench.put("ram.bin", std::vector<std::uint8_t>(bytes.begin() + 14, bytes.end()));
  CHECK(refused("ram.bin").starts_with("rtcmend: ram.bin: its clock bytes are not known\n"));
  // Without register B (0Bh) nobody can say whether 12h is twelve or eighteen (DS12885).
  bench.put("no_b.txt", "00: 00 00 30 00 09 00 04 14 05 31 26\n");
  const std::string no_b = refused("no_b.txt", {"--form", "hex"});
  CHECK(no_b.starts_with("warning: no_b.txt: no line gives 0Bh-3Fh: unknown\n"));
  CHECK(no_b.find("\nrtcmend: no_b.txt: its clock bytes are not known\n") != std::string::npos);
  CHECK(refused("1950.bin", {"--layout", "at+sum-40-7d"})
            .starts_with(
                "rtcmend: 1950.bin: it holds 64 bytes, and the layout at+sum-40-7d needs 128"));
}

TEST_CASE("a clock is read by itself where no layout fits") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  for (std::size_t i = 14; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(i * 37 + 11);
  bench.put("odd.bin", bytes);
  const std::vector<std::string> times{"--at", "2031-05-14T09:30:00", "--at",
                                       "2031-05-24T09:30:00"};
  const auto drift_of = [&](std::vector<std::string> words) {
    words.insert(words.begin(), "drift");
    words.insert(words.end(), times.begin(), times.end());
    return bench.run(words);
  };
  CHECK(drift_of({"odd.bin", "2031-05-24T09:30:10"})
            .out.starts_with("The clock gains 1.00 s a day, 30 s in 30 days"));
}

TEST_CASE("a dump says by itself whether its clock keeps daylight saving") {
  const Workbench bench;
  // Sunday 6 April 2031 lies between; 0Bh bit 0 is DSE (DS12885).
  auto bytes = at_64_bytes();
  bytes[0x08] = 0x04;
  bytes[0x07] = 0x01;
  bytes[0x0B] = 0x03;
  bench.put("before.bin", bytes);
  bytes[0x07] = 0x10;
  bytes[0x04] = 0x10;
  bench.put("after.bin", bytes);
  const Ran ran = bench.run({"drift", "before.bin", "after.bin", "--at", "2031-04-01T09:30:00",
                             "--at", "2031-04-10T09:30:00", "--json"});
  CHECK(ran.code == 1);
  CHECK(json_of(ran)["events"][0]["kind"] == "daylight-saving");
  CHECK(json_of(ran)["ppm"].get<double>() == Approx(0));
}

TEST_CASE("compare reads the chip twice when told to, and never from standard input") {
  const Workbench bench;
  bench.put("wanted.bin", at_64_bytes());
  auto found = at_64_bytes();
  found[0x04] = 0x10;
  found[0x33] = 0x04;
  bench.put("found.bin", found);
  found[0x33] = 0x00;
  bench.put("again.bin", found);
  const Ran unsteady = bench.run({"compare", "wanted.bin", "found.bin", "--after-power-off", "30m",
                                  "--again", "again.bin", "--json"});
  CHECK(unsteady.code == 1);
  CHECK(json_of(unsteady)["retention"]["verdict"] == "unstable-reads");
  CHECK(complains(
      bench.run({"compare", "wanted.bin", "found.bin", "--after-power-off", "30m", "--again", "-"}),
      "--again", "needs a file"));
  CHECK(complains(bench.run(std::vector<std::string>{"compare", "-", "-"}), "compare",
                  "only one of the two can be standard input"));
  for (const char* time : {"0s", "11000d", "-30m"})
    CHECK(complains(bench.run({"compare", "wanted.bin", "found.bin", "--after-power-off", time}),
                    "--after-power-off", "is no time to be without power"));
}

TEST_CASE("the clock alone lost is not kept, though every byte that compare looks at is equal") {
  const Workbench bench;
  bench.put("wanted.bin", at_64_bytes());
  bench.put("found.bin", at_64_bytes());
  const Ran ran =
      bench.run({"compare", "wanted.bin", "found.bin", "--after-power-off", "12h", "--json"});
  CHECK(ran.code == 1);
  CHECK(json_of(ran)["equal"] == true);
  CHECK(json_of(ran)["retention"]["verdict"] == "clock-lost");
}

TEST_CASE("history refuses what holds no dump, and says which") {
  const Workbench bench;
  const auto refused = [&](const char* folder) {
    const Ran ran = bench.run({"history", folder});
    CHECK(ran.code == 2);
    CHECK(ran.out.empty());
    return ran.err.substr(0, ran.err.find('\n'));
  };
  std::filesystem::create_directories(bench.path("m/2031-01-01.bin"));
  CHECK(refused("m") == "rtcmend: m: it holds no dump that could be read");
  bench.put("m/2031-05-14.note", "New cell.\n");
  bench.put("m/.2031-05-14.bin", at_64_bytes());
  bench.put("m/clock.LOG", at_64_bytes());
  bench.put("m/2031-05-15.bin", "");
  CHECK(refused("m") == "rtcmend: m: it holds no dump that could be read");
  CHECK(refused("m/clock.LOG") == "rtcmend: m/clock.LOG: it is not a folder");
  CHECK(refused("n") == "rtcmend: n: there is no such folder");
  std::vector<std::uint8_t> scattered(64);
  for (std::size_t i = 0; i < scattered.size(); ++i)
    scattered[i] = static_cast<std::uint8_t>(i * 37 + 11);
  bench.put("m/2031-05-16.bin", scattered);
  bench.put("m/2031-05-17.bin", std::vector<std::uint8_t>(64, 0x00));
  CHECK(refused("m").starts_with("rtcmend: 2031-05-17.bin: no layout can be told. "));
  const Ran given = bench.run({"history", "m", "--layout", "at", "--json"});
  CHECK(given.code == 1);
  CHECK(json_of(given)["last_good"].is_null());
  CHECK(json_of(given)["entries"].size() == 4);
}

TEST_CASE("a plan takes a cell or a capacity, and what lies between cell and chip") {
  const Workbench bench;
  CHECK(complains(bench.run({"plan", "--cell", "2032", "--capacity", "225"}), "--capacity",
                  "--cell gives the capacity already"));
  CHECK(complains(bench.run({"plan", "--volts", "12"}), "--volts", "0.5 to 10 V"));
  CHECK(complains(bench.run({"plan", "--volts", "0.1"}), "--volts", "0.5 to 10 V"));
  CHECK(complains(bench.run({"plan", "--powered", "-1%"}), "--powered", "no share"));
  CHECK(complains(bench.run({"plan", "--fitted", "2031-02-30"}), "--fitted", "is not a date"));
  CHECK(complains(bench.run({"plan", "--current", "1.2.3uA"}), "--current", "is not a number"));
  const std::string far_too_much(400, '9');
  CHECK(complains(bench.run({"plan", "--current", far_too_much + "uA"}), "--current",
                  "is not a number"));
  CHECK(json_of(bench.run({"plan", "--current", "+5uA", "--json"}))["limited_by"] == "charge");
  const auto day = json_of(bench.run({"plan", "--fitted", "2031-05-14T12:00:00", "--json"}));
  CHECK(day["replace_by"] == "2039-05-14");
  // A diode takes 0.1 to 0.3 V (schottky) or 0.3 to 0.4 V (silicon) of the cell's 3 V (from
  // memory).
  const Ran schottky = bench.run({"plan", "--diode", "schottky", "--fitted", "2031-05-14"});
  CHECK(schottky.out.find("2.7 to 2.9 V") != std::string::npos);
  const Ran silicon =
      bench.run({"plan", "--diode", "silicon", "--volts", "3", "--fitted", "2031-05-14"});
  CHECK(silicon.out.find("2.6 to 2.7 V") != std::string::npos);
}

TEST_CASE("history judges the reading of a dump that is larger than its layout, as verify does") {
  const Workbench bench;
  // Data line 5 at 1: 20h in every byte.
  auto stuck = at_64_bytes();
  stuck.resize(128, 0x00);
  for (std::uint8_t& byte : stuck) byte |= 0x20;
  auto twice = at_64_bytes();
  twice.insert(twice.end(), twice.begin(), twice.end());
  bench.shell("mkdir folder");
  bench.put("folder/2031-05-13.bin", stuck);
  bench.put("folder/2031-05-14.bin", twice);
  const auto told = nlohmann::json::parse(
      bench.run({"history", "folder", "--layout", "at", "--json"}).out)["entries"];
  CHECK(told[0]["standing"]["dump"] == "misread");
  CHECK(told[0]["sound"] == false);
  CHECK(told[1]["standing"]["dump"] == "trusted");
  CHECK(told[1]["sound"] == true);
  CHECK(bench.run({"verify", "folder/2031-05-13.bin", "--layout", "at"}).out.find("Misread") !=
        std::string::npos);
  CHECK(bench.run({"verify", "folder/2031-05-14.bin", "--layout", "at"}).code == 0);
}
