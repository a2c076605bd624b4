#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <random>
#include <utility>
#include <vector>

#include "audit/audit.h"
#include "base/image.h"

namespace rtcmend {

/// Stands for the settings of a dump: two dumps with the same are copies, whatever their clocks
/// say. 128 bits, mixed with a secret of this run: that two different ones meet is out of the
/// question, by chance (1 in 10^26 among a million dumps) and by design of a stranger.
struct SettingsKey {
  std::uint64_t low = 0, high = 0;
  friend bool operator==(const SettingsKey&, const SettingsKey&) = default;
};

/// What keys are mixed with; all keys that are to be compared come from one.
struct KeySecret {
  std::uint64_t low, high;
  static KeySecret fresh();
};

/// Gives the keys. Not for two threads at once; each has its own, with the same secret.
class SettingsKeys {
 public:
  explicit SettingsKeys(const KeySecret& secret) : secret_(secret) {}

  /// Of the RAM bytes that do not change by themselves, as far as the layout says. Nothing for what
  /// has no settings to copy: a misread dump, a blank or cleared one, one with bytes missing.
  std::optional<SettingsKey> operator()(const Image& image, const Verdict& verdict);

 private:
  using Bytes = std::array<std::uint8_t, Image::large_size>;
  /// Which bits count under a layout.
  const Bytes& mask_of(const std::shared_ptr<const Layout>& layout);

  KeySecret secret_;
  std::vector<std::pair<std::shared_ptr<const Layout>, Bytes>> masks_;
};

/// Remembers which dump was the first with its settings.
class Copies {
 public:
  /// Of more different dumps than this nothing new is remembered: memory stays below 40 MB.
  static constexpr std::size_t most = 500'000;

  /// The number of the first dump with this key; nothing when it is this one. Numbers are from 1.
  std::optional<std::size_t> first_of(const SettingsKey& key, std::size_t number);
  /// Whether there were more different dumps than are remembered, so that copies may go untold.
  bool is_full() const { return count_ >= most; }

 private:
  struct First {
    SettingsKey key;
    std::size_t number = 0;  ///< 0 = the place is free
  };
  /// Where a key stands, or would stand. Keys are mixed, so that a part of one is a good place.
  First& place_of(const SettingsKey& key);
  void make_room();

  // A flat table: an audit asks once for every dump, and a node for each would cost as much as
  // judging it. At least a quarter is free.
  std::vector<First> table_ = std::vector<First>(1024);
  std::size_t count_ = 0;
};

}  // namespace rtcmend
