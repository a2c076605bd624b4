#include "cli/audit_worker.h"

#include <fmt/format.h>
#include <span>
#include <variant>

#include "audit/not_a_dump.h"
#include "base/error.h"
#include "forms/form.h"

namespace rtcmend {

namespace {

std::span<const std::uint8_t> bytes_of(std::string_view text) {
  return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
}

/// What to say of a file that could not be read as a dump: that it is an archive says more.
std::string trouble_with(const AuditSubject& subject, std::string_view content,
                         const std::string& trouble) {
  const bool inside = !subject.member.empty();
  const std::string_view kind = kind_of_archive(inside ? subject.member : subject.path, content);
  if (kind.empty()) return trouble;
  if (inside)
    return fmt::format("an archive inside an archive ({}), which is not opened: unpack it", kind);
  if (is_opened(kind))
    return fmt::format("an archive ({}) whose name does not say so: rename it", kind);
  return fmt::format("an archive of a kind that is not read here ({}): unpack it", kind);
}

}  // namespace

AuditWorker::AuditWorker(const Order& order)
    : auditor_(order.rules), keys_(order.secret), order_(order) {}

AuditBatchResult AuditWorker::operator()(const AuditBatch& batch) {
  AuditBatchResult result;
  std::visit([&](const auto& some) { audit(some, result); }, batch);
  return result;
}

void AuditWorker::audit(const FileBatch& batch, AuditBatchResult& result) {
  for (const auto& [path, named] : batch.files) {
    const AuditSubject subject{path, {}, {}};
    std::string content;
    try {
      content = named ? read_whole(path) : read_found(path);
    } catch (const Error& error) {
      add_no_dump(subject, trouble_with(subject, {}, error.message()), result);
      continue;
    }
    audit_dump(subject, content, result);
  }
}

void AuditWorker::audit(const MemberBatch& batch, AuditBatchResult& result) {
  for (const Member& member : batch.members) {
    const AuditSubject subject{batch.archive, member.name, {}};
    if (member.trouble.empty())
      audit_dump(subject, member.content, result);
    else if (member.name.empty())  // it is the archive itself that cannot be read on
      add_no_dump(subject, member.trouble, result);
    else
      add_no_dump(subject, trouble_with(subject, {}, member.trouble), result);
  }
}

void AuditWorker::audit(const PackedBatch& batch, AuditBatchResult& result) {
  AuditSubject subject{batch.path, {}, batch.first};
  const std::string name = order_.lines.name(subject);
  std::string_view rest = batch.bytes;
  const std::size_t size = order_.image_size;
  for (; rest.size() >= size; rest.remove_prefix(size), ++*subject.number) {
    const Image image(bytes_of(rest.substr(0, size)));
    add(subject, name, {image, auditor_.judge(image)}, result);
  }
  if (!rest.empty())
    add_no_dump(subject, fmt::format("the last {} bytes make no whole image", rest.size()), result);
}

void AuditWorker::audit(const BrokenBatch& batch, AuditBatchResult& result) {
  add_no_dump({batch.path, {}, {}}, batch.trouble, result);
}

void AuditWorker::audit_dump(const AuditSubject& subject, std::string_view content,
                             AuditBatchResult& result) {
  const std::string& own_name = subject.member.empty() ? subject.path : subject.member;
  if (is_surely_archive(own_name, content)) {
    add_no_dump(subject, trouble_with(subject, content, {}), result);
    return;
  }
  try {
    const Dump dump = read_dump(content, subject.path);
    Verdict verdict = auditor_.judge(dump.image);
    if (!dump.confession.misread.empty()) verdict.findings.add(FindingKind::misread_before);
    if (!dump.confession.sealed_anyway.empty()) verdict.findings.add(FindingKind::sealed_before);
    add(subject, order_.lines.name(subject), {dump.image, verdict}, result);
  } catch (const Error& error) {
    add_no_dump(subject, trouble_with(subject, content, error.message()), result);
  }
}

void AuditWorker::add(const AuditSubject& subject, const std::string& name, const Judged& judged,
                      AuditBatchResult& result) {
  const AuditLines::Wording& wording = words_for(judged.verdict);
  AuditRow row;
  row.begin = result.text.size();
  result.text += wording.before;
  row.name_at = result.text.size();
  result.text += name;
  if (subject.number) order_.lines.add_number(*subject.number, result.text);
  result.text += wording.behind;
  row.end = result.text.size();
  row.worth = worth_of(judged.verdict);
  row.settings = keys_(judged.image, judged.verdict);
  if (order_.sorted_by != SortedBy::nothing) row.sorted_by = sort_key(subject, &judged.verdict);
  result.rows.push_back(std::move(row));
  result.counter.add(judged.verdict);
}

void AuditWorker::add_no_dump(const AuditSubject& subject, const std::string& trouble,
                              AuditBatchResult& result) {
  AuditRow row;
  row.begin = result.text.size();
  result.text += order_.lines.no_dump(subject, trouble);
  row.name_at = row.end = result.text.size();
  if (order_.sorted_by != SortedBy::nothing) row.sorted_by = sort_key(subject, nullptr);
  result.rows.push_back(std::move(row));
  result.counter.add_no_dump();
}

std::string AuditWorker::sort_key(const AuditSubject& subject, const Verdict* verdict) const {
  if (order_.sorted_by == SortedBy::layout)
    return verdict != nullptr && verdict->is_clear() ? verdict->layout->id : "~";  // behind all ids
  return subject.member.empty() ? subject.path : subject.path + ": " + subject.member;
}

const AuditLines::Wording& AuditWorker::words_for(const Verdict& verdict) {
  constexpr std::size_t most = 4096;  // far more than come up, but memory shall stay flat
  if (const auto known = wordings_.find(verdict); known != wordings_.end()) return known->second;
  if (wordings_.size() >= most) wordings_.clear();
  return wordings_.emplace(verdict, order_.lines.wording(verdict)).first->second;
}

}  // namespace rtcmend
