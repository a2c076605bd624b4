#pragma once
// What a changed place calls: the operation as written, or the other one when the mutant of this
// number is awake (RTCMEND_MUTANT in the environment).

#include <cstdlib>

namespace mutants {

inline bool awake(int number) {
  static const int chosen = [] {
    const char* text = std::getenv("RTCMEND_MUTANT");
    return text ? std::atoi(text) : -1;
  }();
  return number == chosen;
}

#define RTCMEND_EITHER(name, op, other)               \
  template <typename A, typename B>                   \
  inline auto name(int n, A a, B b) {                 \
    return awake(n) ? decltype(a op b)(a other b) : (a op b); \
  }
RTCMEND_EITHER(plus, +, -)
RTCMEND_EITHER(minus, -, +)
RTCMEND_EITHER(times, *, +)
RTCMEND_EITHER(over, /, *)
RTCMEND_EITHER(rest, %, *)
RTCMEND_EITHER(left, <<, >>)
RTCMEND_EITHER(right, >>, <<)
RTCMEND_EITHER(bit_and, &, |)
RTCMEND_EITHER(bit_or, |, &)
RTCMEND_EITHER(bit_xor, ^, &)
RTCMEND_EITHER(same, ==, !=)
RTCMEND_EITHER(other, !=, ==)
RTCMEND_EITHER(below, <, <=)
RTCMEND_EITHER(up_to, <=, <)
RTCMEND_EITHER(above, >, >=)
RTCMEND_EITHER(from, >=, >)
#undef RTCMEND_EITHER

#define RTCMEND_ASSIGN(name, op, other)        \
  template <typename A, typename B>            \
  inline A& name##_assign(int n, A& a, B b) {  \
    if (awake(n))                              \
      a other b;                               \
    else                                       \
      a op b;                                  \
    return a;                                  \
  }
RTCMEND_ASSIGN(plus, +=, -=)
RTCMEND_ASSIGN(minus, -=, +=)
RTCMEND_ASSIGN(times, *=, +=)
RTCMEND_ASSIGN(over, /=, *=)
RTCMEND_ASSIGN(rest, %=, /=)
RTCMEND_ASSIGN(left, <<=, >>=)
RTCMEND_ASSIGN(right, >>=, <<=)
RTCMEND_ASSIGN(bit_and, &=, |=)
RTCMEND_ASSIGN(bit_or, |=, &=)
RTCMEND_ASSIGN(bit_xor, ^=, &=)
#undef RTCMEND_ASSIGN

inline bool negated(int n, bool value) {
  return awake(n) ? !value : value;
}
template <typename T>
inline T constant(int n, T value) {
  return awake(n) ? static_cast<T>(value + 1) : value;
}

}  // namespace mutants
