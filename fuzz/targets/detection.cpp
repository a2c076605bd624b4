// Whatever the content, it is read, or refused with a reason.
#include "forms/form.h"
#include "target.h"

namespace rtcmend::fuzz {

void attempt(std::string_view input) {
  const Dump dump = read_dump(input, "fuzz");
  must(dump.image.size() == 64 || dump.image.size() == 128, "an image has 64 or 128 bytes");
}

}  // namespace rtcmend::fuzz
