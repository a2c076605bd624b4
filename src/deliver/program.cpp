#include "deliver/program.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "deliver/assembled.h"

namespace rtcmend {

namespace {

constexpr std::string_view marker{"rtcmend places\0", 15};  // asm/places.inc

std::span<const std::uint8_t> assembled(std::string_view name) {
  for (const AssembledProgram& program : assembled_programs())
    if (program.name == name) return program.bytes;
  throw std::logic_error("no assembled program " + std::string(name));
}

std::size_t word_at(std::span<const std::uint8_t> bytes, std::size_t at) {
  return bytes[at] + 256U * bytes[at + 1];
}

}  // namespace

Program::Program(std::string_view name) : name_(name) {
  const auto whole = assembled(name);
  const auto table = std::search(whole.begin(), whole.end(), marker.begin(), marker.end());
  if (table == whole.end()) throw std::logic_error(name_ + " has no table of places");
  bytes_.assign(whole.begin(), table);
  auto at = static_cast<std::size_t>(table - whole.begin()) + marker.size();
  while (whole[at] != 0) {
    std::string place;
    for (; whole[at] != 0; ++at) place += static_cast<char>(whole[at]);
    places_[place] = {word_at(whole, at + 1), word_at(whole, at + 3)};
    at += 5;
  }
}

const Program::Place& Program::need(std::string_view place) const {
  const auto found = places_.find(place);
  if (found == places_.end()) throw std::logic_error(name_ + " has no place " + std::string(place));
  return found->second;
}

std::size_t Program::offset(std::string_view place) const {
  return need(place).offset;
}

std::size_t Program::room(std::string_view place) const {
  return need(place).size;
}

void Program::fill(std::string_view place, std::span<const std::uint8_t> bytes) {
  const Place& target = need(place);
  if (bytes.size() > target.size)
    throw std::logic_error(name_ + ": too much for the place " + std::string(place));
  std::copy(bytes.begin(), bytes.end(),
            bytes_.begin() + static_cast<std::ptrdiff_t>(target.offset));
}

void Program::fill(std::string_view place, std::string_view text) {
  fill(place, std::span(reinterpret_cast<const std::uint8_t*>(text.data()), text.size()));
}

void Program::fill_byte(std::string_view place, std::uint8_t value) {
  fill(place, std::span(&value, 1));
}

void Program::fill_word(std::string_view place, std::uint16_t value) {
  fill(place, std::array{static_cast<std::uint8_t>(value), static_cast<std::uint8_t>(value >> 8)});
}

}  // namespace rtcmend
