#include <algorithm>
#include <bitset>
#include <cmath>
#include <fmt/format.h>
#include <optional>

#include "base/text.h"
#include "layout/privacy.h"
#include "repair/probe.h"
#include "repair/repair.h"

namespace rtcmend {

namespace {

// What a hand leaves behind that lost its place while it copied rows of 16 bytes: something written
// twice and something left out, so that all between them stands one place off, or two rows each in
// the other's place. A row that came out too short or too long is refused when it is read.

std::uint8_t joined(std::uint8_t high, std::uint8_t low) {
  return static_cast<std::uint8_t>(high << 4 | low);
}

/// What a row is copied by: its bytes, or their digits.
class Cells {
 public:
  Cells(const Image& image, Address start, bool digits) : start_(start), digits_(digits) {
    for (std::size_t i = 0; i < bytes_in_a_row; ++i) {
      const std::uint8_t byte = image[static_cast<Address>(start + i)];
      if (digits) cells_.push_back(byte >> 4);
      cells_.push_back(digits ? byte & 0xFU : byte);
    }
  }
  std::size_t size() const { return cells_.size(); }
  std::uint8_t operator[](std::size_t i) const { return cells_[i]; }
  bool are_digits() const { return digits_; }

  Address address(std::size_t cell) const {
    return static_cast<Address>(start_ + (digits_ ? cell / 2 : cell));
  }
  /// "12", or "12.2" for its second digit.
  std::string name(std::size_t cell) const {
    return hex2(address(cell)) + (digits_ ? cell % 2 == 0 ? ".1" : ".2" : "");
  }
  std::string prose(std::size_t cell) const {
    if (!digits_) return hex_prose(address(cell));
    return fmt::format("the {} digit of {}", cell % 2 == 0 ? "first" : "second",
                       hex_prose(address(cell)));
  }
  std::string written(std::uint8_t cell) const {
    return digits_ ? hex2(cell).substr(1) : hex2(cell);
  }
  /// The same row with the cells from first to last moved from where they stand to `by` beside it.
  Cells moved(std::size_t first, std::size_t last, int by) const {
    Cells other = *this;
    for (std::size_t i = first; i <= last; ++i)
      other.cells_[static_cast<std::size_t>(static_cast<int>(i) + by)] = cells_[i];
    return other;
  }
  /// What the cell must hold for its byte to be this one; nothing where the byte's other digit
  /// differs.
  std::optional<std::uint8_t> cell_of(std::uint8_t byte, std::size_t cell) const {
    if (!digits_) return byte;
    const bool first = cell % 2 == 0;
    if ((first ? byte & 0xFU : byte >> 4) != cells_[cell ^ 1U]) return std::nullopt;
    return static_cast<std::uint8_t>(first ? byte >> 4 : byte & 0xFU);
  }
  std::uint8_t byte(std::size_t i) const {
    return digits_ ? joined(cells_[2 * i], cells_[2 * i + 1]) : cells_[i];
  }

 private:
  Address start_;
  bool digits_;
  std::vector<std::uint8_t> cells_;
};

class LostPlaces {
 public:
  LostPlaces(const Image& image, const Layout& layout, const Trouble& trouble, const Gain& gain)
      : image_(image),
        layout_(layout),
        trouble_(trouble),
        gain_(gain),
        passwords_(private_bytes(layout)) {}

  std::vector<Repair> all() {
    const auto rows = image_.size() / bytes_in_a_row;
    for (std::size_t i = 0; i < rows; ++i) {
      const auto start = static_cast<Address>(i * bytes_in_a_row);
      if (!is_whole(start)) continue;
      try_moved(Cells(image_, start, false), share(Mishap::column_slipped, rows));
      try_moved(Cells(image_, start, true), share(Mishap::digit_doubled, rows));
      for (std::size_t k = i + 1; k < rows; ++k)
        try_exchanged(start, static_cast<Address>(k * bytes_in_a_row), rows);
    }
    keep_likeliest();
    return std::move(found_);
  }

 private:
  static double share(Mishap cause, std::size_t rows) {
    return share_of(cause, Origin::hand) / static_cast<double>(rows);
  }
  bool is_whole(Address start) const {
    for (std::size_t i = 0; i < bytes_in_a_row; ++i)
      if (!image_.known(static_cast<Address>(start + i))) return false;
    return true;
  }

  /// Of a run of equal cells it does not show which was written twice: the one at its edge counts.
  void try_moved(const Cells& cells, double prior) {
    const std::size_t last = cells.size() - 1;
    const double ways = static_cast<double>(last * (last - 1));  // two cells, not side by side
    for (std::size_t twice = 0; twice < last; ++twice) {
      if (cells[twice] != cells[twice + 1]) continue;
      const bool ends = twice + 2 > last || cells[twice + 2] != cells[twice];
      const bool begins = twice == 0 || cells[twice - 1] != cells[twice];
      for (std::size_t lost = twice + 2; ends && lost <= last; ++lost)
        try_lost(cells.moved(twice + 2, lost, -1), twice, lost, prior / ways);
      for (std::size_t lost = 0; begins && lost < twice; ++lost)
        try_lost(cells.moved(lost, twice - 1, 1), twice, lost, prior / ways);
    }
  }

  /// `righted` is right but for the lost cell.
  void try_lost(const Cells& righted, std::size_t twice, std::size_t lost, double prior) {
    const Address at = righted.address(lost);
    const Image image = with_row(righted);
    if (is_password(at) || touches_passwords(image)) return;
    std::bitset<256> values;
    for (const Check* check : trouble_.failing) {
      const Probe probe(*check, image);
      for (const std::uint8_t value : probe.values(at)) values.set(value);
    }
    for (unsigned value = 0; value < values.size(); ++value)
      if (values[value])
        add_lost(righted, image, static_cast<std::uint8_t>(value), twice, lost, prior);
  }
  void add_lost(const Cells& righted, Image image, std::uint8_t byte, std::size_t twice,
                std::size_t lost, double prior) {
    const auto cell = righted.cell_of(byte, lost);
    if (!cell) return;
    image.set(righted.address(lost), byte);
    const std::string what = righted.written(*cell);
    add({fmt::format("{}-{}-{}-{}", righted.are_digits() ? "digits" : "moved", righted.name(twice),
                     righted.name(lost), what),
         fmt::format("A slip: what stands at {} was written twice, and {} at {} left out; all "
                     "between stands one place off.",
                     righted.prose(twice), what, righted.prose(lost)),
         patches_between(image_, image), prior});
  }
  void try_exchanged(Address first, Address second, std::size_t rows) {
    if (!is_whole(second)) return;
    Image image = image_;
    for (std::size_t i = 0; i < bytes_in_a_row; ++i) {
      const auto a = static_cast<Address>(first + i), b = static_cast<Address>(second + i);
      image.set(a, image_[b]);
      image.set(b, image_[a]);
    }
    if (touches_passwords(image)) return;
    add({fmt::format("rows-{}-{}", hex2(first), hex2(second)),
         fmt::format("A slip: the rows at {} and {} were written in each other's place.",
                     hex_prose(first), hex_prose(second)),
         patches_between(image_, image),
         share(Mishap::rows_exchanged, rows) * 2 / static_cast<double>(rows - 1)});
  }

  Image with_row(const Cells& cells) const {
    Image image = image_;
    const Address start = cells.address(0);
    for (std::size_t i = 0; i < bytes_in_a_row; ++i)
      image.set(static_cast<Address>(start + i), cells.byte(i));
    return image;
  }
  bool is_password(Address at) const {
    return std::binary_search(passwords_.begin(), passwords_.end(), at);
  }
  bool touches_passwords(const Image& image) const {
    return std::any_of(passwords_.begin(), passwords_.end(),
                       [&](Address at) { return image.at(at) != image_.at(at); });
  }

  void add(Repair repair) {
    if (!repair.patches.empty() && !mended_by(repair.patches, layout_, trouble_, image_).empty())
      found_.push_back(std::move(repair));
  }
  /// Under a sum nearly every two places have a byte that closes the gap; most make no machine.
  void keep_likeliest() {
    constexpr std::size_t most = 20;
    std::vector<std::pair<double, std::size_t>> order;
    for (std::size_t i = 0; i < found_.size(); ++i)
      order.emplace_back(-std::log2(found_[i].prior) - gain_(found_[i].patches), i);
    std::sort(order.begin(), order.end());
    if (order.size() > most) order.resize(most);
    std::vector<Repair> kept;
    for (const auto& [cost, i] : order) kept.push_back(std::move(found_[i]));
    found_ = std::move(kept);
  }

  const Image& image_;
  const Layout& layout_;
  const Trouble& trouble_;
  const Gain& gain_;
  const Addresses passwords_;
  std::vector<Repair> found_;
};

}  // namespace

std::vector<Repair> lost_place_repairs(const Image& image, const Layout& layout,
                                       const Trouble& trouble, const Gain& gain) {
  return LostPlaces(image, layout, trouble, gain).all();
}

}  // namespace rtcmend
