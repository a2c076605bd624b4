#include "audit/audit.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <thread>
#include <utility>

#include "base/error.h"
#include "base/ordered.h"
#include "base/text.h"
#include "cli/audit_printer.h"
#include "cli/audit_sources.h"
#include "cli/audit_worker.h"
#include "cli/commands.h"
#include "cli/layout_file.h"
#include "cli/layout_home.h"
#include "cli/patience.h"
#include "cli/print.h"
#include "render/audit_csv.h"
#include "render/audit_json.h"
#include "terminal/audit.h"

namespace rtcmend {

namespace {

struct AuditOptions {
  std::vector<std::string> paths;
  std::string layout;
  std::string packed;
  std::string only, sort, table;
  bool wide = false;
  int jobs = 0;
  Voice voice;
};

constexpr int most_jobs = 256;

constexpr std::array orders = {
    std::pair{"worth", LineOrder::worth}, std::pair{"name", LineOrder::name},
    std::pair{"layout", LineOrder::layout}, std::pair{"copies", LineOrder::copies}};

unsigned jobs_of(const AuditOptions& given) {
  if (given.jobs < 0 || given.jobs > most_jobs)
    refuse("--jobs", fmt::format("{} is not a number of threads", given.jobs),
           fmt::format("1 to {}; left out, one for each processor", most_jobs));
  return given.jobs > 0 ? static_cast<unsigned>(given.jobs)
                        : std::max(1U, std::thread::hardware_concurrency());
}

std::size_t packed_size(const std::string& packed) {
  return packed.empty() ? 0 : static_cast<std::size_t>(*parse_integer(packed));
}

std::unique_ptr<AuditLines> lines_for(const AuditOptions& given) {
  if (given.voice.json) return std::make_unique<AuditJson>();
  if (!given.table.empty()) return std::make_unique<AuditCsv>();
  return std::make_unique<AuditText>(given.voice.ink(),
                                     given.wide ? AuditText::Width::whole : AuditText::Width::page);
}

AuditPrinter::Wanted wanted_by(const AuditOptions& given) {
  AuditPrinter::Wanted wanted;
  for (const Worth worth : {Worth::proven, Worth::unproven, Worth::broken})
    if (given.only == name(worth)) wanted.only = worth;
  for (const auto& [word, order] : orders)
    if (given.sort == word) wanted.order = order;
  return wanted;
}

SortedBy sorted_by(LineOrder order) {
  if (order == LineOrder::name) return SortedBy::name;
  return order == LineOrder::layout ? SortedBy::layout : SortedBy::nothing;
}

std::shared_ptr<const Layout> layout_given(const AuditOptions& given, std::size_t image_size) {
  if (given.layout.empty()) return nullptr;
  auto named = std::make_shared<const Layout>(layout_named(given.layout));
  if (image_size != 0 && named->size > image_size)
    refuse("--packed", fmt::format("the layout {} needs {} bytes", named->id, named->size),
           fmt::format("--packed {}, or another layout", named->size));
  return named;
}

int audit(const AuditOptions& given) {
  const unsigned jobs = jobs_of(given);
  if (given.voice.json && !given.table.empty())
    refuse("--table", "the output is one or the other: a table, or JSON", "leave --json out");
  const std::size_t image_size = packed_size(given.packed);
  const AuditRules rules{shelf_at_hand().own(), layout_given(given, image_size)};
  const AuditPrinter::Wanted wanted = wanted_by(given);

  const auto lines = lines_for(given);
  Patience patience;
  const Watch watch = patience.watch();
  AuditSource source(given.paths, image_size, [&] { return watch.stopped(); });
  AuditPrinter printer(*lines, wanted, rules.named);
  const AuditWorker::Order order{rules, *lines, image_size, KeySecret::fresh(),
                                 sorted_by(wanted.order)};
  using Work = Ordered<AuditBatch, AuditBatchResult>;
  const auto next = [&] { return watch.stopped() ? std::nullopt : source.next(); };
  const auto make_worker = [&]() -> Work::Worker {
    return [worker = std::make_shared<AuditWorker>(order)](const AuditBatch& batch) {
      return (*worker)(batch);
    };
  };
  const auto take = [&](const AuditBatchResult& result) {
    printer.take(result);
    patience.count(printer.lines());
  };
  Work::run(jobs, {next, make_worker, take});
  const bool complete = !watch.stopped();
  printer.finish(source.aside(), complete);
  return complete && printer.tally().all_sound() ? exit_good : exit_bad;
}

}  // namespace

Action set_up_audit(Options& options) {
  auto given = std::make_shared<AuditOptions>();
  options.words(given->paths, "PATH", "dumps, folders of them, tar or zip archives");
  options.value(given->layout, "--layout", "ID|FILE",
                "judge every image by this layout; each is identified when left out");
  options.choice(given->only, "--only", {"proven", "unproven", "broken"},
                 "show these alone; what could not be read is with the broken ones");
  options.choice(given->sort, "--sort", {"worth", "name", "layout", "copies"},
                 "the order of the lines; as the dumps are found when left out");
  options.flag(given->wide, "--wide", "whole names, and the ids of all that was found");
  options.choice(given->table, "--table", {"csv"}, "a table for a spreadsheet, without a summary");
  options.choice(given->packed, "--packed", {"64", "128"},
                 "each file holds many images of this many bytes, back to back");
  options.value(given->jobs, "--jobs", "N", "threads; one for each processor when left out");
  add_voice(options, given->voice);
  options.example("rtcmend audit dumps/ collection.tar.gz");
  options.example("rtcmend audit dumps/ --only proven --sort copies");
  options.example("rtcmend audit --packed 64 all.bin --layout at --json");
  return [given] { return audit(*given); };
}

}  // namespace rtcmend
