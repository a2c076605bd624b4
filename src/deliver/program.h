#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// An assembled program whose named places (asm/places.inc) can be filled in.
class Program {
 public:
  /// One of assembled_programs().
  explicit Program(std::string_view name);

  /// Fills the start of a place. The bytes must fit: a place that is missing or too small is a
  /// fault of the program, reported as std::logic_error.
  void fill(std::string_view place, std::span<const std::uint8_t> bytes);
  void fill(std::string_view place, std::string_view text);
  void fill_byte(std::string_view place, std::uint8_t value);
  /// Low byte first, as the processor reads it.
  void fill_word(std::string_view place, std::uint16_t value);

  /// Offset of a place from the program's start, and its size in bytes.
  std::size_t offset(std::string_view place) const;
  std::size_t room(std::string_view place) const;

  /// The code as it stands, without the table of places.
  const std::vector<std::uint8_t>& bytes() const { return bytes_; }

 private:
  struct Place {
    std::size_t offset = 0;
    std::size_t size = 0;
  };
  const Place& need(std::string_view place) const;

  std::string name_;
  std::vector<std::uint8_t> bytes_;
  std::map<std::string, Place, std::less<>> places_;
};

}  // namespace rtcmend
