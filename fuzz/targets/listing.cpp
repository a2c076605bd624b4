// A listing with whatever the first bytes say of how it is meant: it is read, or refused with a
// reason.
#include "forms/form.h"
#include "target.h"

namespace rtcmend::fuzz {

namespace {

/// One of a few values, or nothing.
template <typename T>
std::optional<T> chosen(unsigned char byte, std::initializer_list<T> values) {
  const std::size_t at = byte % (values.size() + 1);
  return at == values.size() ? std::nullopt : std::optional<T>(values.begin()[at]);
}

}  // namespace

void attempt(std::string_view input) {
  constexpr std::size_t head = 6;
  if (input.size() < head) return;
  const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(input[at]); };
  ReadingOptions options;
  options.radix = chosen(byte(0), {2, 8, 10, 16});
  options.width = chosen<std::size_t>(byte(1), {1, 2, 4, 8});
  options.order = chosen(byte(2), {ByteOrder::low_first, ByteOrder::high_first});
  options.addresses = chosen(
      byte(3), {AddressKind::hex, AddressKind::decimal, AddressKind::octal, AddressKind::none});
  options.at = chosen<std::size_t>(byte(4), {0, 1, 64, 1000});
  options.size = chosen<std::size_t>(byte(5), {64, 128});
  // Every image has some evidence of its own, so that every way through the choice is taken.
  options.likeness = [](const Image& image) { return static_cast<double>(image[0] & 0x1F); };
  const Dump dump = read_dump(input.substr(head), "fuzz", options);
  must(dump.image.size() == 64 || dump.image.size() == 128, "an image has 64 or 128 bytes");
}

}  // namespace rtcmend::fuzz
