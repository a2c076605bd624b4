#include "desk/open.h"

#include <algorithm>
#include <fmt/format.h>
#include <span>
#include <utility>

#include "base/error.h"
#include "base/text.h"
#include "desk/confession.h"
#include "identify/identify.h"
#include "judge/health.h"
#include "judge/misreads.h"
#include "layout/privacy.h"

namespace rtcmend {

namespace {

/// "at, crc+slots-19".
std::string listed(const std::vector<Candidate>& candidates) {
  constexpr std::size_t most = 4;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < candidates.size() && i < most; ++i)
    names.push_back(candidates[i].layout);
  return join(names, ", ");
}

/// Says why no layout can be taken: what is wrong with the dump as a whole comes before any list of
/// candidates.
[[noreturn]] void refuse_unidentified(const Dump& dump, const std::string& name,
                                      const Shelf& shelf) {
  if (const auto faults = health(dump.image, shelf.about(dump.image)); !faults.empty())
    refuse(name, "no layout can be told. " + faults.front().text, faults.front().advice);
  const Identification found = identify(dump.image, shelf.own());
  const Act name_one{Act::Kind::choose, "layout", "ID"};
  if (found.candidates.empty())
    refuse(name, "no layout fits these bytes",
           {{"Name the one you know; the layout \"chip\" shows the clock alone", name_one}});
  refuse(name, "no layout is clearly the right one; candidates: " + listed(found.candidates),
         {{"Name one", name_one}, {"See the evidence for each", Act{Act::Kind::identify, {}, {}}}});
}

/// A dump may name a layout that is at hand, but must not make the program open files.
Layout named_by_dump(const Dump& dump, const std::string& name, const Shelf& shelf) {
  if (shelf.has(dump.layout)) return shelf.named(dump.layout);
  refuse(name, fmt::format("it names the layout \"{}\", which is not built in", dump.layout),
         {{"Give its file", Act{Act::Kind::choose, "layout", "FILE"}}});
}

}  // namespace

void need_room_for(const Layout& layout, const Image& image, const std::string& name) {
  if (layout.size <= image.size()) return;
  refuse(name,
         fmt::format("it holds {} bytes, and the layout {} needs {}", image.size(), layout.id,
                     layout.size),
         "another layout, or none, to have it identified");
}

std::optional<Layout> clear_layout_for(const Dump& dump, const std::string& name,
                                       const Shelf& shelf) {
  if (!dump.layout.empty()) {
    Layout layout = named_by_dump(dump, name, shelf);
    need_room_for(layout, dump.image, name);
    return layout;
  }
  const auto clear = recognise(dump.image, shelf.own());
  if (!clear) return std::nullopt;
  return shelf.named(clear->id);
}

Layout layout_for(const Dump& dump, const std::string& name, const std::optional<Layout>& given,
                  const Shelf& shelf) {
  if (given) {
    need_room_for(*given, dump.image, name);
    return *given;
  }
  if (auto layout = clear_layout_for(dump, name, shelf)) return *std::move(layout);
  refuse_unidentified(dump, name, shelf);
}

Dump once(Dump dump, const std::optional<Layout>& given, const Shelf& shelf) {
  const auto needs_both = [&] {
    if (given) return given->size == Image::large_size;
    return !dump.layout.empty() && shelf.has(dump.layout) &&
           shelf.named(dump.layout).size == Image::large_size;
  };
  if (!halves_mirror(dump.image) || needs_both()) return dump;
  dump.image = dump.image.with_size(Image::small_size);
  dump.mirrored = true;
  return dump;
}

namespace {

std::vector<Image> images_of(const std::vector<Reread>& again) {
  std::vector<Image> images;
  for (const Reread& other : again) images.push_back(other.image);
  return images;
}

/// Of dumps that differ, the one to begin with: another that holds by itself comes first.
std::string which_holds(const Examination& first, const std::vector<Reread>& again,
                        const Layout& layout) {
  const auto proven = Standing::Settings::proven;
  if (first.standing.settings == proven) {
    const bool all = std::all_of(again.begin(), again.end(), [&](const Reread& other) {
      return other.image.size() >= layout.size &&
             examine(other.image, layout).standing.settings == proven;
    });
    return all ? ""
               : " The checks hold in this dump, and not in " +
                     std::string(again.size() == 1 ? "the other one." : "all the others.");
  }
  for (const Reread& other : again)
    if (other.image.size() >= layout.size &&
        examine(other.image, layout).standing.settings == proven)
      return fmt::format(" The checks hold in {}, and not in this one: use that one.",
                         other.name.empty() ? "the other dump" : other.name);
  return {};
}

}  // namespace

Examination judge_as_read(const Dump& dump, const Layout& layout, const std::vector<Reread>& again,
                          const Shelf& shelf) {
  Examination examination = examine_whole(
      dump.image, layout, [&] { return std::span<const Layout>(shelf.about(dump.image)); });
  std::vector<Finding> more = confessed(dump.confession);
  if (dump.mirrored)
    more.push_back(reading_findings(examination).empty() ? half_of_mirror_finding(dump.image)
                                                         : mirror_finding());
  for (Finding& finding : compare_reads(dump.image, images_of(again), private_bytes(layout))) {
    finding.text += which_holds(examination, again, layout);
    more.push_back(std::move(finding));
  }
  for (Finding& finding : compare_text(dump.image, dump.text, private_bytes(layout)))
    more.push_back(std::move(finding));
  return with_findings(std::move(examination), more);
}

Provenance provenance_of(const Dump& dump, const std::vector<Reread>& again,
                         const std::optional<Image>& before) {
  // Rows carry a code each, and programs write the other forms: only listings pass through hands.
  return {dump.form == Form::hex ? Origin::hand : Origin::machine, dump.text, images_of(again),
          before};
}

Opened open_dump(Dump dump, std::string name, const ReadingOrder& order, const Shelf& shelf) {
  Opened opened{std::move(name), once(std::move(dump), order.layout, shelf), nullptr, {}, {}, {}};
  opened.layout =
      std::make_shared<const Layout>(layout_for(opened.dump, opened.name, order.layout, shelf));
  opened.examination = judge_as_read(opened.dump, *opened.layout, order.again, shelf);
  opened.reading = reading_findings(opened.examination);
  opened.provenance = provenance_of(opened.dump, order.again, order.before);
  return opened;
}

}  // namespace rtcmend
