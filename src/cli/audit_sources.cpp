#include "cli/audit_sources.h"

#include <fmt/format.h>
#include <utility>

#include "audit/not_a_dump.h"
#include "base/error.h"

namespace rtcmend {

namespace {

constexpr std::size_t files_a_batch = 64, images_a_piece = 512;
constexpr std::size_t member_bytes_a_batch = 256 * 1024;

}  // namespace

AuditSource::AuditSource(const std::vector<std::string>& paths, std::size_t image_size,
                         std::function<bool()> stopped)
    : image_size_(image_size), stopped_(std::move(stopped)) {
  for (const std::string& path : paths) {
    trees_.emplace_back(path);
    if (std::string target = target_of_link(path); !target.empty())
      met_.followed.emplace_back(path, std::move(target));
  }
}

bool AuditSource::holds_many(const std::string& path) const {
  return image_size_ != 0 || is_archive_name(path);
}

std::optional<AuditSource::Found> AuditSource::next_found() {
  while (!trees_.empty()) {
    try {
      const bool named = trees_.front().is_single();
      while (auto path = trees_.front().next()) {
        if (named || !is_leftover(*path)) return Found{std::move(*path), {}, named};
        ++met_.leftovers;
      }
      met_.links_passed_over += trees_.front().links();
      trees_.pop_front();
    } catch (const Error& error) {
      return Found{error.where(), error.message(), false};
    }
  }
  return std::nullopt;
}

std::optional<AuditBatch> AuditSource::next_files() {
  FileBatch batch;
  while (batch.files.size() < files_a_batch) {
    std::optional<Found> found = next_found();
    if (!found) break;
    if (!found->trouble.empty() || holds_many(found->path)) {
      aside_ = std::move(found);
      break;
    }
    batch.files.push_back({std::move(found->path), found->named});
  }
  if (batch.files.empty()) return std::nullopt;
  return batch;
}

std::optional<AuditBatch> AuditSource::open(const Found& found) {
  if (!found.trouble.empty()) return BrokenBatch{found.path, found.trouble};
  try {
    if (image_size_ != 0)
      packed_.reset(new Packed{found.path, PieceReader(found.path)});
    else
      archive_.reset(new Opened{found.path, Archive(found.path, {}, stopped_)});
    return std::nullopt;
  } catch (const Error& error) {
    return BrokenBatch{found.path, error.message()};
  }
}

std::optional<AuditBatch> AuditSource::next_members() {
  MemberBatch batch{archive_->path, {}};
  std::size_t bytes = 0;
  try {
    while (batch.members.size() < files_a_batch && bytes < member_bytes_a_batch) {
      std::optional<Member> member = archive_->archive.next();
      if (!member) {
        archive_.reset();
        break;
      }
      if (is_leftover(member->name)) {
        ++met_.leftovers;
        continue;
      }
      bytes += member->content.size();
      batch.members.push_back(std::move(*member));
    }
  } catch (const Error& error) {
    archive_.reset();
    batch.members.push_back({"", {}, error.message()});
  }
  if (batch.members.empty()) return std::nullopt;
  return batch;
}

std::optional<AuditBatch> AuditSource::next_piece() {
  try {
    std::string bytes = packed_->reader.next(images_a_piece * image_size_);
    const std::size_t first = packed_->next_number;
    packed_->next_number += images_a_piece;
    if (!bytes.empty()) return PackedBatch{packed_->path, first, std::move(bytes)};
    const std::string path = std::move(packed_->path);
    packed_.reset();
    if (first == 0) return BrokenBatch{path, "it is empty"};
    return std::nullopt;
  } catch (const Error& error) {
    const std::string path = std::move(packed_->path);
    packed_.reset();
    return BrokenBatch{path, error.message()};
  }
}

std::optional<AuditBatch> AuditSource::next() {
  for (;;) {
    if (archive_)
      if (auto batch = next_members()) return batch;
    if (packed_)
      if (auto batch = next_piece()) return batch;
    if (!aside_)
      if (auto batch = next_files()) return batch;
    if (!aside_) return std::nullopt;
    if (auto trouble = open(*std::exchange(aside_, std::nullopt))) return trouble;
  }
}

}  // namespace rtcmend
