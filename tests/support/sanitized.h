#pragma once

namespace rtcmend::test {

/// Whether the compiler's address sanitizer watches this build, which runs ten times slower by it:
/// long series of the same kind are cut short then.
#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool is_sanitized = true;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
inline constexpr bool is_sanitized = true;
#else
inline constexpr bool is_sanitized = false;
#endif
#else
inline constexpr bool is_sanitized = false;
#endif

}  // namespace rtcmend::test
