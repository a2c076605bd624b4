#include "audit/audit.h"

#include <algorithm>
#include <fmt/format.h>
#include <thread>
#include <unordered_map>

#include "audit/auditor.h"
#include "base/error.h"
#include "base/ordered.h"
#include "base/text.h"
#include "cli/audit_sources.h"
#include "cli/commands.h"
#include "cli/layout_file.h"
#include "cli/patience.h"
#include "cli/print.h"
#include "forms/form.h"
#include "forms/sizes.h"
#include "layout/library.h"
#include "render/audit_json.h"
#include "terminal/audit.h"

namespace rtcmend {

namespace {

struct AuditOptions {
  std::vector<std::string> paths;
  std::string layout;
  std::string packed;
  int jobs = 0;
  Voice voice;
};

constexpr int most_jobs = 256;

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

/// What became of a batch.
struct BatchResult {
  std::string text;
  AuditCounter counter;
  std::size_t count = 0;
};

/// A thread's part: reads, judges, and writes down.
class BatchWorker {
 public:
  BatchWorker(const AuditRules& rules, const AuditLines& lines, std::size_t image_size)
      : auditor_(rules), lines_(lines), image_size_(image_size) {}

  BatchResult operator()(AuditBatch batch) {
    BatchResult result;
    std::visit([&](const auto& some) { audit(some, result); }, batch);
    return result;
  }

 private:
  void audit(const FileBatch& batch, BatchResult& result) {
    for (const auto& [path, named] : batch.files) {
      const AuditSubject subject{path, {}, {}};
      try {
        audit_dump(subject, named ? read_whole(path) : read_found(path), result);
      } catch (const Error& error) {
        add_broken(subject, error.message(), result);
      }
    }
  }

  void audit(const MemberBatch& batch, BatchResult& result) {
    for (const Member& member : batch.members) {
      const AuditSubject subject{batch.archive, member.name, {}};
      if (!member.trouble.empty())
        add_broken(subject, member.trouble, result);
      else
        audit_dump(subject, member.content, result);
    }
  }

  void audit(const PackedBatch& batch, BatchResult& result) {
    AuditSubject subject{batch.path, {}, batch.first};
    const std::string name = lines_.name(subject);
    std::string_view rest = batch.bytes;
    for (; rest.size() >= image_size_; rest.remove_prefix(image_size_), ++*subject.number)
      add(name, subject.number, auditor_.judge(bytes_of(rest.substr(0, image_size_))), result);
    if (!rest.empty())
      add_broken(subject, fmt::format("the last {} bytes make no whole image", rest.size()),
                 result);
  }

  void audit(const BrokenBatch& batch, BatchResult& result) {
    add_broken({batch.path, {}, {}}, batch.trouble, result);
  }

  void audit_dump(const AuditSubject& subject, std::string_view content, BatchResult& result) {
    try {
      const Dump dump = read_dump(content, subject.path);
      Verdict verdict = auditor_.judge(dump.image);
      if (!dump.misread.empty()) verdict.findings.add(FindingKind::misread_before);
      add(lines_.name(subject), subject.number, verdict, result);
    } catch (const Error& error) {
      add_broken(subject, error.message(), result);
    }
  }

  static std::span<const std::uint8_t> bytes_of(std::string_view text) {
    return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
  }

  void add(const std::string& name, std::optional<std::size_t> number, const Verdict& verdict,
           BatchResult& result) {
    const AuditLines::Wording& wording = words_for(verdict);
    result.text += wording.before;
    result.text += name;
    if (number) lines_.add_number(*number, result.text);
    result.text += wording.behind;
    result.counter.add(verdict);
    ++result.count;
  }

  void add_broken(const AuditSubject& subject, const std::string& trouble, BatchResult& result) {
    result.text += lines_.broken(subject, trouble);
    result.counter.add_broken();
    ++result.count;
  }

  const AuditLines::Wording& words_for(const Verdict& verdict) {
    constexpr std::size_t most = 4096;  // far more than come up, but memory shall stay flat
    if (const auto known = wordings_.find(verdict); known != wordings_.end()) return known->second;
    if (wordings_.size() >= most) wordings_.clear();
    return wordings_.emplace(verdict, lines_.wording(verdict)).first->second;
  }

  struct HashOfVerdict {
    std::size_t operator()(const Verdict& verdict) const {
      // Few layouts come up, and what is equal must have one hash: the length of the name will do.
      const std::size_t layout = verdict.is_clear() ? verdict.layout->id.size() : 0;
      return std::hash<std::uint64_t>{}(verdict.findings.bits) ^ layout << 56;
    }
  };

  Auditor auditor_;
  const AuditLines& lines_;
  std::size_t image_size_;
  std::unordered_map<Verdict, AuditLines::Wording, HashOfVerdict> wordings_;
};

std::unique_ptr<AuditLines> lines_for(const Voice& voice) {
  if (voice.json) return std::make_unique<AuditJson>();
  return std::make_unique<AuditText>(voice.ink());
}

int audit(const AuditOptions& given) {
  const unsigned jobs = jobs_of(given);
  const std::size_t image_size = packed_size(given.packed);
  std::shared_ptr<const Layout> named;
  if (!given.layout.empty()) named = std::make_shared<const Layout>(layout_named(given.layout));
  if (named && image_size != 0 && named->size > image_size)
    refuse("--packed", fmt::format("the layout {} needs {} bytes", named->id, named->size),
           fmt::format("--packed {}, or another layout", named->size));
  const AuditRules rules{{}, named};

  const auto lines = lines_for(given.voice);
  AuditTally total;
  Patience patience;
  const Watch watch = patience.watch();
  AuditSource source(given.paths, image_size, [&] { return watch.stopped(); });
  using Work = Ordered<AuditBatch, BatchResult>;
  const auto next = [&] { return watch.stopped() ? std::nullopt : source.next(); };
  const auto make_worker = [&]() -> Work::Worker {
    return [worker = std::make_shared<BatchWorker>(rules, *lines, image_size)](AuditBatch batch) {
      return (*worker)(std::move(batch));
    };
  };
  const auto take = [&](const BatchResult& result) {
    print(result.text);
    total = sum(std::move(total), result.counter.tally());
    patience.count(total.all());
  };
  Work::run(jobs, {next, make_worker, take});
  const bool complete = !watch.stopped();
  print(lines->summary(total, complete));
  return complete && total.all_sound() ? exit_good : exit_bad;
}

}  // namespace

Action set_up_audit(Options& options) {
  auto given = std::make_shared<AuditOptions>();
  options.words(given->paths, "PATH", "dumps, folders of them, tar or zip archives");
  options.value(given->layout, "--layout", "ID|FILE",
                "judge every image by this layout; each is identified when left out");
  options.choice(given->packed, "--packed", {"64", "128"},
                 "each file holds many images of this many bytes, back to back");
  options.value(given->jobs, "--jobs", "N", "threads; one for each processor when left out");
  add_voice(options, given->voice);
  options.example("rtcmend audit dumps/ collection.tar.gz");
  options.example("rtcmend audit --packed 64 all.bin --layout at --json");
  return [given] { return audit(*given); };
}

}  // namespace rtcmend
