#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "base/error.h"
#include "target.h"

namespace rtcmend::fuzz {

void must(bool holds, const char* promise) {
  if (holds) return;
  std::fprintf(stderr, "broken promise: %s\n", promise);
  std::abort();
}

}  // namespace rtcmend::fuzz

/// The function that libFuzzer calls, and replay.cpp as well.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  try {
    rtcmend::fuzz::attempt({reinterpret_cast<const char*>(bytes), size});
  } catch (const rtcmend::Error& error) {
    rtcmend::fuzz::must(!error.message().empty(), "a refusal says why");
  }
  return 0;
}
