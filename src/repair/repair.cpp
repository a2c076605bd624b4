#include "repair/repair.h"

#include <algorithm>
#include <iterator>

#include "judge/examine.h"

namespace rtcmend {

Image patched(const Image& image, const std::vector<Patch>& patches) {
  Image changed = image;
  for (const Patch& patch : patches) changed.set(patch.at, patch.to);
  return changed;
}

std::vector<Patch> patches_between(const Image& from, const Image& to) {
  std::vector<Patch> patches;
  for (std::size_t i = 0; i < from.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (from.known(at) && to.known(at) && from[at] != to[at])
      patches.push_back({at, from[at], to[at]});
  }
  return patches;
}

Trouble trouble_in(const Image& image, const Layout& layout) {
  Trouble trouble;
  for (const CheckResult& result : evaluate_all(layout, image)) {
    if (!result.counts || !result.unknown.empty() || result.blank) continue;
    (result.ok() ? trouble.holding : trouble.failing).push_back(result.check);
  }
  return trouble;
}

std::vector<const Check*> mended_by(const std::vector<Patch>& patches, const Layout& layout,
                                    const Trouble& trouble, const Image& image) {
  const std::vector<CheckResult> after = evaluate_all(layout, patched(image, patches));
  const auto holds = [&](const Check* check) {
    return std::any_of(after.begin(), after.end(), [=](const CheckResult& result) {
      return result.check == check && result.ok();
    });
  };
  if (!std::all_of(trouble.holding.begin(), trouble.holding.end(), holds)) return {};
  std::vector<const Check*> mended;
  std::copy_if(trouble.failing.begin(), trouble.failing.end(), std::back_inserter(mended), holds);
  return mended;
}

}  // namespace rtcmend
