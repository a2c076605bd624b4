#include "cli/audit_printer.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "cli/print.h"

namespace rtcmend {

namespace {

/// What holds no dump comes last.
int rank(const std::optional<Worth>& worth) {
  return worth ? static_cast<int>(*worth) : static_cast<int>(Worth::broken) + 1;
}

}  // namespace

AuditPrinter::AuditPrinter(const AuditLines& lines, const Wanted& wanted,
                           std::shared_ptr<const Layout> named)
    : lines_(lines), wanted_(wanted), named_(std::move(named)) {
  print(lines_.heading());
}

bool AuditPrinter::is_wanted(const AuditRow& row) const {
  // What could not be read is never out of sight where the broken ones are looked for.
  return !wanted_.only || row.worth.value_or(Worth::broken) == *wanted_.only;
}

void AuditPrinter::add_line(const AuditBatchResult& result, const AuditRow& row,
                            std::optional<std::size_t> copy_of, std::string& text) const {
  lines_.open(line_, text);
  const std::size_t begin = text.size();
  text.append(result.text, row.begin, row.end - row.begin);
  lines_.close(copy_of, begin + row.name_at - row.begin, text);
}

void AuditPrinter::take(const AuditBatchResult& result) {
  std::string text;
  text.reserve(result.text.size() * 3 / 2);
  for (const AuditRow& row : result.rows) {
    ++line_;
    std::optional<std::size_t> copy_of;
    if (row.settings) copy_of = copies_.first_of(*row.settings, line_);
    if (copy_of) ++tally_.copies;
    if (!is_wanted(row)) continue;
    if (wanted_.order == LineOrder::found) {
      add_line(result, row, copy_of, text);
      continue;
    }
    Held& held =
        held_.emplace_back(Held{{}, row.sorted_by, row.worth, line_, copy_of.value_or(line_)});
    add_line(result, row, copy_of, held.text);
  }
  print(text);
  tally_ = sum(std::move(tally_), result.counter.tally());
}

void AuditPrinter::finish(const AuditAside& aside, bool complete) {
  const auto place = [&](const Held& one) {
    const int worth = wanted_.order == LineOrder::worth ? rank(one.worth) : 0;
    const std::size_t group = wanted_.order == LineOrder::copies ? one.group : 0;
    return std::tuple<int, std::string_view, std::size_t, std::size_t>(worth, one.key, group,
                                                                       one.line);
  };
  std::sort(held_.begin(), held_.end(),
            [&](const Held& a, const Held& b) { return place(a) < place(b); });
  for (const Held& one : held_) print(one.text);
  print(lines_.summary({tally_, aside, named_, complete, copies_.is_full()}));
}

}  // namespace rtcmend
