// An archive from a stranger, its members read as dumps, as `audit` does it. Members stay in memory
// and in their bounds, and a bomb is not read on.
#include "base/archive.h"

#include "base/error.h"
#include "base/files.h"
#include "forms/form.h"
#include "nameless_file.h"
#include "target.h"

namespace rtcmend::fuzz {

void attempt(std::string_view input) {
  constexpr ArchiveLimits limits{.bytes = 4 * largest_input, .times_its_size = 200};
  static NamelessFile file;
  file.fill(input);
  Archive archive(file.path(), limits);
  std::size_t unpacked = 0;
  while (const auto member = archive.next()) {
    must(member->content.empty() || member->trouble.empty(), "trouble leaves no half member");
    must(member->content.size() <= largest_input, "a member stays in its bound");
    unpacked += member->content.size();
    must(unpacked <= limits.bytes + limits.times_its_size * input.size() + largest_input,
         "a bomb is not read on");
    try {
      read_dump(member->content, member->name);
    } catch (const Error&) {
    }
  }
}

}  // namespace rtcmend::fuzz
