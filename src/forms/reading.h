#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"

namespace rtcmend {

enum class Form;

/// Which byte of a number stands at the lower address.
enum class ByteOrder { low_first, high_first };

/// What the numbers in front of the rows of a listing are.
enum class AddressKind { hex, decimal, octal, none };

/// How a dump is to be read; what is left out is found out from the dump itself.
struct ReadingOptions {
  std::optional<Form> form{};
  std::optional<int> radix{};          ///< of the bytes of a listing: 2, 8, 10 or 16
  std::optional<std::size_t> width{};  ///< bytes that one number of a listing holds: 1, 2, 4 or 8
  std::optional<ByteOrder> order{};    ///< of numbers that hold several bytes
  std::optional<AddressKind> addresses{};  ///< of a listing
  std::optional<std::size_t> at{};         ///< where the chip's bytes begin in something bigger
  std::optional<std::size_t> size{};       ///< how many bytes the chip has: 64 or 128
  /// How much an image looks like a chip's: the bits of evidence that its checks, fields and clock
  /// give, 0 for noise. Weighs readings that the text alone leaves open. May be empty.
  std::function<double(const Image&)> likeness{};
};

/// "2", "8", "10", "16" and the like for an option's value. Each refuses (Error, at the option's
/// name) another value with those that there are.
int radix_named(const std::string& option, std::string_view value);
std::size_t width_named(const std::string& option, std::string_view value);
/// "low" or "high": the byte that comes first.
ByteOrder order_named(const std::string& option, std::string_view value);
/// "hex", "decimal", "octal", "none".
AddressKind addresses_named(const std::string& option, std::string_view value);
/// A decimal number, or a hex one as 0x80 or 80h.
std::size_t offset_named(const std::string& option, std::string_view value);
/// 64 or 128.
std::size_t chip_size_named(const std::string& option, std::string_view value);

/// What is to be said of how a dump was read.
struct Remarks {
  std::vector<std::string> notes;     ///< what was passed over and decided, and why
  std::vector<std::string> warnings;  ///< what is uncertain or missing

  void add(const Remarks& more);
};

}  // namespace rtcmend
