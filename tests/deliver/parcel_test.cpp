#include "deliver/parcel.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/error.h"
#include "deliver/plan.h"
#include "deliver/samples.h"
#include "layout/library.h"
#include "support/sound_images.h"

namespace rtcmend::test {

namespace {

Parcel parcel_under(const std::string& layout, const Image& image) {
  return parcel_of(image, built_in_layout(layout));
}

bool among(const Addresses& addresses, Address at) {
  return std::find(addresses.begin(), addresses.end(), at) != addresses.end();
}

}  // namespace

TEST_CASE("a parcel shows what is fitted, but nothing unknown and nothing that is not in use") {
  const Parcel parcel = parcel_under("at", at_64_image());
  CHECK(parcel.layout == "at");
  CHECK(parcel.fields ==
        std::vector<std::string>{"First floppy drive: 1.44M", "Second floppy drive: none",
                                 "First fixed disk, type: 39", "Second fixed disk, type: 0",
                                 "Display: own-firmware", "Coprocessor fitted: no",
                                 "Base memory: 640 KiB", "Extended memory as configured: 384 KiB"});
  CHECK(parcel_under("at", without(at_64_image(), {0x10, 0x12})).fields.front() ==
        "Display: own-firmware");
  Layout conditional = built_in_layout("at");
  for (Field& field : conditional.fields)
    if (field.id == "floppy_a") field.when = {{{0x34}, 1, 1}};
  CHECK(parcel_of(at_64_image(), conditional).fields.front() == "Second floppy drive: none");
}

TEST_CASE("a layout that knows the chip alone has nothing to show and no century") {
  const Parcel parcel = parcel_under("chip", at_64_image());
  CHECK(parcel.fields.empty());
  CHECK(parcel.checks.empty());
  CHECK(parcel.century == std::nullopt);
}

TEST_CASE("what nobody knows about the machine is the first caution of every way") {
  Layout draft = built_in_layout("at");
  draft.when_writing = {"This layout is a draft."};
  const Parcel parcel = parcel_of(at_64_image(), draft);
  for (const Way way : {Way::boot_floppy, Way::dos_program, Way::debugger_script,
                        Way::basic_listing, Way::keyboard_program})
    CHECK(deliver(parcel, way).cautions.front().steps().front().words == "This layout is a draft.");
}

TEST_CASE("0Fh becomes 00h, whatever the dump holds there, unless a check covers it") {
  // RBIL61 C0006: 04h to 0Ch go elsewhere than into the self-test.
  for (const auto reason : std::vector<std::uint8_t>{0x00, 0x03, 0x04, 0x0C, 0x0D, 0xFF})
    CHECK(parcel_under("at", with_bytes(at_64_image(), {{0x0F, reason}})).image[0x0F] == 0x00);
  const Parcel unknown = parcel_under("at", without(at_64_image(), {0x0F, 0x0F}));
  CHECK(unknown.image.at(0x0F) == 0x00);
  CHECK(among(plan_writing(unknown).order, 0x0F));
  Layout covering = built_in_layout("at");
  covering.checks[0].over[0].range.first = 0x0F;
  CHECK(parcel_of(with_bytes(at_64_image(), {{0x0F, 0x07}}), covering).image[0x0F] == 0x07);
}

TEST_CASE("a century that no check covers is written with the time, one that is covered is RAM") {
  Parcel parcel = at_64();
  CHECK(plan_writing(parcel).century == Address{0x32});
  CHECK_FALSE(among(plan_writing(parcel).order, 0x32));
  parcel.checks[0].over[0].range.last = 0x32;
  CHECK(plan_writing(parcel).century == std::nullopt);
  CHECK(among(plan_writing(parcel).order, 0x32));
  parcel = at_64();
  parcel.century = Address{0x2E};
  CHECK(plan_writing(parcel).century == std::nullopt);
  CHECK(plan_writing(parcel).order.back() == 0x2E);
  parcel.century = std::nullopt;
  CHECK(plan_writing(parcel).century == std::nullopt);
  parcel.century = Address{0x50};
  CHECK(plan_writing(parcel).century == std::nullopt);
}

TEST_CASE("an unknown century is left alone like any unknown byte") {
  Parcel parcel = at_64();
  parcel.image.forget(0x32);
  const WritePlan plan = plan_writing(parcel);
  CHECK(plan.century == std::nullopt);
  CHECK(plan.left_alone == Addresses{0x32});
  CHECK_FALSE(among(plan.order, 0x32));
}

TEST_CASE("unknown check bytes are not written, the known ones come last") {
  Parcel parcel = at_64();
  parcel.image.forget(0x2F);
  const WritePlan plan = plan_writing(parcel);
  CHECK(plan.order.back() == 0x2E);
  CHECK(plan.left_alone == Addresses{0x2F});
}

TEST_CASE("a parcel of unknown RAM has nothing to write") {
  Parcel parcel = at_64();
  parcel.image = without(parcel.image, {0x0E, 0x3F});
  CHECK_THROWS_WITH(plan_writing(parcel), Catch::Contains("there is no RAM byte to write"));
}

TEST_CASE("every way writes a parcel whose layout keeps no century") {
  Parcel parcel = at_64();
  parcel.century = std::nullopt;
  for (const Way way : all_ways()) {
    INFO(name(way));
    const Delivery delivery = deliver(parcel, way);
    CHECK(delivery.left_alone.empty());
    CHECK(delivery.code == open_code(parcel.image, parcel.hidden));
    CHECK_FALSE(delivery.steps.empty());
  }
}

TEST_CASE("what a parcel shows is plain on the old screen, and nothing of it is cut") {
  Parcel parcel = at_64();
  parcel.fields = {"Drive\xC3\xA9\x07 " + std::string(100, 'x')};
  std::string program = deliver(parcel, Way::dos_program).content;
  CHECK(program.find("  Drive???\r\n    " + std::string(75, 'x') + "\r\n    " +
                     std::string(25, 'x') + "\r\n") != std::string::npos);
  parcel.fields.clear();
  parcel.title =
      "AT class, 128 bytes, with a second sum over 40h-7Dh and disks that are set by hand";
  program = deliver(parcel, Way::dos_program).content;
  CHECK(program.find(
            "Image for the clock chip, 64 bytes: at, AT class, 128 bytes, with a second sum\r\n"
            "    over 40h-7Dh and disks that are set by hand\r\n") != std::string::npos);
}

TEST_CASE("a layout of more checks than the old machine has room for is refused") {
  Parcel parcel = at_64();
  parcel.checks[0].over.assign(500, {{0x10, 0x10}, std::nullopt});
  CHECK_THROWS_WITH(deliver(parcel, Way::dos_program),
                    Catch::Contains("its checks are too many for the program on the old machine"));
}

}  // namespace rtcmend::test
