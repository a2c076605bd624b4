#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "layout/layout.h"

namespace rtcmend {

/// The different fields of several layouts. Layouts share most of theirs, and what is asked about a
/// field once need not be asked again for the next layout.
class FieldPool {
 public:
  /// A field with a layout that it is read in.
  struct Entry {
    const Field* field;
    const Layout* layout;
  };

  /// The number of a field of this layout: that of the same field in an earlier one, if what it
  /// follows is the same there, too; else a new one, the next higher. The layout must outlive it.
  std::size_t number(const Field& field, const Layout& layout);
  const Entry& operator[](std::size_t number) const { return entries_[number]; }
  std::size_t size() const { return entries_.size(); }

 private:
  std::vector<Entry> entries_;
  std::multimap<std::string, std::size_t> by_id_;
};

}  // namespace rtcmend
