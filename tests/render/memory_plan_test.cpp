#include "render/memory_plan.h"

#include <catch2/catch.hpp>

#include "render/small_layout.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

MemoryPlan plan_of(const Shown& shown) {
  return memory_plan(shown.dump.image, shown.layout, shown.examination);
}

}  // namespace

TEST_CASE("every byte has an owner: the chip, a group, a check, or nobody") {
  const Shown shown(at_64_image());
  const MemoryPlan plan = plan_of(shown);
  REQUIRE(plan.bytes.size() == 64);
  CHECK(plan.groups == std::vector<std::string>{"drives", "memory", "locks"});
  CHECK(plan.bytes[0x00].owner == Owner::clock);
  CHECK(plan.bytes[0x09].owner == Owner::clock);
  CHECK(plan.bytes[0x0A].owner == Owner::registers);
  CHECK(plan.bytes[0x10].owner == Owner::group);
  CHECK(plan.bytes[0x10].groups == std::vector<std::size_t>{0});
  CHECK(plan.bytes[0x15].groups == std::vector<std::size_t>{1});
  CHECK(plan.bytes[0x2E].owner == Owner::check);
  CHECK(plan.bytes[0x11].owner == Owner::nobody);
}

TEST_CASE("the plan knows which checks cover a byte and which are stored in it") {
  const Shown shown(at_64_image());
  const MemoryPlan plan = plan_of(shown);
  CHECK(plan.bytes[0x0F].covered_by.empty());
  CHECK(plan.bytes[0x10].covered_by == std::vector<std::size_t>{0});
  CHECK(plan.bytes[0x2D].covered_by == std::vector<std::size_t>{0});
  CHECK(plan.bytes[0x2E].covered_by.empty());
  CHECK(plan.bytes[0x2E].stores == std::vector<std::size_t>{0});
  CHECK(plan.bytes[0x2F].stores == std::vector<std::size_t>{0});
}

TEST_CASE("bytes that a fault names are damaged, those of a doubt doubtful") {
  // A sum that does not hold, and register B with daylight saving on.
  const Shown shown(with_bytes(at_64_image(), {{0x2F, 0x68}, {0x0B, 0x03}}));
  const MemoryPlan plan = plan_of(shown);
  CHECK(plan.bytes[0x2F].damage == Damage::fault);
  CHECK(plan.bytes[0x0B].damage == Damage::doubt);
  CHECK(plan.bytes[0x10].damage == Damage::none);
}

TEST_CASE("bytes of passwords are marked") {
  const Shown shown(at_64_image());
  const MemoryPlan plan = plan_of(shown);
  CHECK(plan.bytes[0x38].concealed);
  CHECK_FALSE(plan.bytes[0x37].concealed);
}

TEST_CASE("neighbours of one field or one check are drawn as one") {
  const Shown shown(at_64_image());
  const MemoryPlan plan = plan_of(shown);
  CHECK(same_owner(plan.bytes[0x15], plan.bytes[0x16]));
  CHECK(same_owner(plan.bytes[0x2E], plan.bytes[0x2F]));
  CHECK_FALSE(same_owner(plan.bytes[0x10], plan.bytes[0x12]));
  CHECK_FALSE(same_owner(plan.bytes[0x09], plan.bytes[0x0A]));
}

TEST_CASE("groups have letters, and more than 26 of them too") {
  CHECK(group_letter(0) == "A");
  CHECK(group_letter(25) == "Z");
  CHECK(group_letter(26) == "AA");
  CHECK(group_letter(27) == "AB");
  CHECK(group_letter(511) == "SR");
}

TEST_CASE("the chip's own bytes have short names") {
  // MC146818A, address map.
  CHECK(chip_word(0x00) == "sec");
  CHECK(chip_word(0x05) == "alarm");
  CHECK(chip_word(0x06) == "wkday");
  CHECK(chip_word(0x0D) == "reg D");
  CHECK(chip_word(0x0E).empty());
}

TEST_CASE("the bytes that the likeliest repair would change are suspected, no others") {
  const Shown shown(with_bytes(at_64_image(), {{0x15, 0x88}}));
  const Suspect likeliest{"bit-15-3", "", {{0x15, 0x88, 0x80}}, {"sum-10-2d"}, 0.9};
  const Suspect other{"bit-16-0", "", {{0x16, 0x02, 0x03}}, {"sum-10-2d"}, 0.1};
  const MemoryPlan plan = with_suspects(plan_of(shown), {likeliest, other});
  CHECK(plan.bytes[0x15].suspected);
  CHECK_FALSE(plan.bytes[0x16].suspected);
  CHECK_FALSE(with_suspects(plan_of(shown), {}).bytes[0x15].suspected);
}
