#pragma once

// The range algorithms that the core uses and that Debian's Emscripten lacks: its library is that
// of LLVM 13, where std::ranges has concepts and views but no algorithms. The build for the browser
// includes this file before every source; nothing else does.

#include <version>

#if !defined(__cpp_lib_ranges) && defined(_LIBCPP_VERSION)

#include <algorithm>
#include <functional>
#include <iterator>
#include <utility>

namespace std::ranges {

struct rtcmend_same {
  template <typename T>
  constexpr T&& operator()(T&& value) const {
    return static_cast<T&&>(value);
  }
};

template <typename R, typename Test, typename Look = rtcmend_same>
bool all_of(R&& range, Test test, Look look = {}) {
  return std::all_of(std::begin(range), std::end(range),
                     [&](auto&& one) { return bool(std::invoke(test, std::invoke(look, one))); });
}

template <typename R, typename Test, typename Look = rtcmend_same>
bool any_of(R&& range, Test test, Look look = {}) {
  return std::any_of(std::begin(range), std::end(range),
                     [&](auto&& one) { return bool(std::invoke(test, std::invoke(look, one))); });
}

template <typename R, typename Test, typename Look = rtcmend_same>
bool none_of(R&& range, Test test, Look look = {}) {
  return !ranges::any_of(range, test, look);
}

template <typename R, typename Test, typename Look = rtcmend_same>
auto find_if(R&& range, Test test, Look look = {}) {
  return std::find_if(std::begin(range), std::end(range),
                      [&](auto&& one) { return bool(std::invoke(test, std::invoke(look, one))); });
}

template <typename R, typename T, typename Look = rtcmend_same>
auto find(R&& range, const T& value, Look look = {}) {
  return ranges::find_if(
      range, [&](auto&& one) { return one == value; }, look);
}

template <typename R, typename Test, typename Look = rtcmend_same>
auto count_if(R&& range, Test test, Look look = {}) {
  return std::count_if(std::begin(range), std::end(range),
                       [&](auto&& one) { return bool(std::invoke(test, std::invoke(look, one))); });
}

template <typename R, typename T, typename Look = rtcmend_same>
auto count(R&& range, const T& value, Look look = {}) {
  return ranges::count_if(
      range, [&](auto&& one) { return one == value; }, look);
}

template <typename R, typename Less = std::less<>, typename Look = rtcmend_same>
void sort(R&& range, Less less = {}, Look look = {}) {
  std::sort(std::begin(range), std::end(range), [&](const auto& a, const auto& b) {
    return std::invoke(less, std::invoke(look, a), std::invoke(look, b));
  });
}

template <typename R, typename Less = std::less<>, typename Look = rtcmend_same>
void stable_sort(R&& range, Less less = {}, Look look = {}) {
  std::stable_sort(std::begin(range), std::end(range), [&](const auto& a, const auto& b) {
    return std::invoke(less, std::invoke(look, a), std::invoke(look, b));
  });
}

template <typename A, typename B, typename Same = std::equal_to<>>
bool equal(A&& a, B&& b, Same same = {}) {
  return std::equal(std::begin(a), std::end(a), std::begin(b), std::end(b), same);
}

template <typename A, typename B, typename Same = std::equal_to<>>
bool is_permutation(A&& a, B&& b, Same same = {}) {
  return std::is_permutation(std::begin(a), std::end(a), std::begin(b), std::end(b), same);
}

template <typename R, typename Out>
void copy(R&& range, Out out) {
  std::copy(std::begin(range), std::end(range), out);
}

template <typename A, typename B, typename Out>
void set_difference(A&& a, B&& b, Out out) {
  std::set_difference(std::begin(a), std::end(a), std::begin(b), std::end(b), out);
}

template <typename R, typename Less = std::less<>, typename Look = rtcmend_same>
auto max_element(R&& range, Less less = {}, Look look = {}) {
  return std::max_element(std::begin(range), std::end(range), [&](const auto& a, const auto& b) {
    return std::invoke(less, std::invoke(look, a), std::invoke(look, b));
  });
}

template <typename R, typename Less = std::less<>, typename Look = rtcmend_same>
auto min_element(R&& range, Less less = {}, Look look = {}) {
  return std::min_element(std::begin(range), std::end(range), [&](const auto& a, const auto& b) {
    return std::invoke(less, std::invoke(look, a), std::invoke(look, b));
  });
}

}  // namespace std::ranges

#endif
