#include "render/part_words.h"

namespace rtcmend {

std::string package_word(Package package) {
  if (package == Package::bare) return "bare";
  return package == Package::potted ? "potted" : "module";
}

std::string cell_word(CellPlace cell) {
  if (cell == CellPlace::outside) return "outside";
  return cell == CellPlace::built_in ? "built in" : "rechargeable";
}

}  // namespace rtcmend
