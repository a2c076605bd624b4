#include "cli/dump_source.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/files.h"
#include "base/text.h"
#include "cli/layout_file.h"
#include "cli/layout_home.h"
#include "cli/print.h"
#include "desk/likeness.h"
#include "forms/form_table.h"

namespace rtcmend {

namespace {

ReadingOptions reading_options(const DumpSource& source) {
  const ListingWords& words = source.listing;
  ReadingOptions options;
  // What is mistyped is refused first: it shall not wait for standard input.
  options.form = given_form("--form", source.form);
  if (!words.radix.empty()) options.radix = radix_named("--radix", words.radix);
  if (!words.width.empty()) options.width = width_named("--width", words.width);
  if (!words.order.empty()) options.order = order_named("--order", words.order);
  if (!words.addresses.empty()) options.addresses = addresses_named("--addresses", words.addresses);
  if (!words.at.empty()) options.at = offset_named("--at", words.at);
  if (!words.size.empty()) options.size = chip_size_named("--size", words.size);
  options.likeness = [](const Image& image) { return likeness(image, shelf_at_hand()); };
  return options;
}

void tell(const Remarks& remarks, const std::string& name) {
  constexpr std::size_t width = 80;
  const auto say = [&](std::string_view kind, const std::string& text) {
    print_aside(fold(fmt::format("{}: {}: {}", kind, printable(name), printable(text)), width, 2) +
                "\n");
  };
  for (const std::string& note : remarks.notes) say("note", note);
  for (const std::string& warning : remarks.warnings) say("warning", warning);
}

}  // namespace

void add_listing(Options& options, DumpSource& source) {
  options.value(source.form, "--form", "FORM",
                "how the dump is written down: " + list_of_forms() + "; detected when left out");
  options.choice(source.listing.radix, "--radix", {"2", "8", "10", "16"},
                 "what the bytes of a listing are written in");
  options.choice(source.listing.width, "--width", {"1", "2", "4", "8"},
                 "bytes that each number of a listing holds");
  options.choice(source.listing.order, "--order", {"low", "high"}, "which of them comes first");
  options.choice(source.listing.addresses, "--addresses", {"hex", "decimal", "octal", "none"},
                 "what stands in front of the rows of a listing");
}

void add_form(Options& options, DumpSource& source) {
  add_listing(options, source);
  options.value(source.listing.at, "--at", "OFFSET",
                "where the chip's bytes begin in something bigger: 128, 0x80 or 80h");
  options.choice(source.listing.size, "--size", {"64", "128"}, "how many bytes the chip has");
}

void add_layout(Options& options, DumpSource& source) {
  options.value(source.layout, "--layout", "ID|FILE",
                "the layout to read it by; identified when left out");
}

void add_reading(Options& options, DumpSource& source) {
  add_form(options, source);
  add_layout(options, source);
}

void add_dump(Options& options, DumpSource& source) {
  options.word(source.path, "DUMP", "the dump; - is standard input");
  add_reading(options, source);
}

void add_again(Options& options, DumpSource& source) {
  options.values(source.again, "--again", "DUMP2",
                 "a second dump of the same chip: says which bytes were not read steadily");
  options.value(source.before, "--before", "DUMP",
                "an earlier dump of the same machine: what was there then counts as evidence");
}

std::string spoken_name(const std::string& path) {
  return path == "-" ? "standard input" : path;
}

std::optional<Form> given_form(const std::string& option, const std::string& name) {
  if (name.empty()) return std::nullopt;
  try {
    return form_named(name);
  } catch (const Error& error) {
    refuse(option, error.message(), error.advice());
  }
}

Dump read_dump_from(const DumpSource& source) {
  return read_with_text(source).dump;
}

DumpWithText read_with_text(const DumpSource& source) {
  const ReadingOptions options = reading_options(source);
  const std::string name = spoken_name(source.path);
  std::string text = read_whole(source.path);
  Dump dump = read_dump(text, name, options);
  tell(dump.remarks, name);
  return {std::move(text), std::move(dump)};
}

Dump read_dump_from(const std::string& path, const std::string& form) {
  DumpSource source;
  source.path = path;
  source.form = form;
  return read_dump_from(source);
}

std::optional<Layout> given_layout(const std::string& id_or_file) {
  if (id_or_file.empty()) return std::nullopt;
  return layout_named(id_or_file);
}

Opened open_dump(const DumpSource& source) {
  Dump dump = read_dump_from(source);
  ReadingOrder order;
  order.layout = given_layout(source.layout);
  for (const std::string& path : source.again)
    order.again.push_back({spoken_name(path), read_dump_from(path, "").image});
  if (!source.before.empty()) order.before = read_dump_from(source.before, "").image;
  return open_dump(std::move(dump), spoken_name(source.path), order, shelf_at_hand());
}

Inputs inputs_of(const DumpSource& source) {
  Inputs inputs{source.path, source.layout, source.before};
  inputs.add(source.again);
  return inputs;
}

}  // namespace rtcmend
