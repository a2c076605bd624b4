// Judging one image after another: the quick way against the plain one, by a named layout and with
// identification over all built-in layouts.

#include <benchmark/benchmark.h>

#include "audit/auditor.h"
#include "images/random_image.h"

namespace {

using namespace rtcmend;

const Layout* layout_of(std::size_t size) {
  for (const Layout& layout : all_layouts())
    if (layout.id == (size == Image::small_size ? "at" : "at+sum-40-79")) return &layout;
  return nullptr;
}

/// Sound images of one layout, one in eight spoilt.
std::vector<Image> images_of(const Layout& layout) {
  Dice dice(2);
  std::vector<Image> images;
  for (int i = 0; i < 512; ++i) {
    images.push_back(random_image(layout, dice));
    if (once_in(dice, 8)) images.back().set(0x10, static_cast<std::uint8_t>(roll(dice, 256)));
  }
  return images;
}

AuditRules rules_for(benchmark::State& state) {
  const bool named = state.range(1) != 0;
  if (!named) return {};
  return {{}, std::make_shared<const Layout>(*layout_of(static_cast<std::size_t>(state.range(0))))};
}

template <typename Judge>
void judge_all(benchmark::State& state, const Judge& judge) {
  const auto images = images_of(*layout_of(static_cast<std::size_t>(state.range(0))));
  std::size_t next = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(judge(images[next]));
    next = (next + 1) % images.size();
  }
  state.SetItemsProcessed(state.iterations());
}

void judge_quickly(benchmark::State& state) {
  const AuditRules rules = rules_for(state);
  Auditor auditor(rules);
  judge_all(state, [&](const Image& image) { return auditor.judge(image); });
}

void judge_one_plainly(benchmark::State& state) {
  const AuditRules rules = rules_for(state);
  judge_all(state, [&](const Image& image) { return judge_plainly(image, rules); });
}

BENCHMARK(judge_quickly)->ArgNames({"bytes", "named"})->ArgsProduct({{64, 128}, {1, 0}});
BENCHMARK(judge_one_plainly)->ArgNames({"bytes", "named"})->ArgsProduct({{64, 128}, {1, 0}});

}  // namespace

BENCHMARK_MAIN();
