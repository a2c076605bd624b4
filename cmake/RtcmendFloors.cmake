# A floor is one folder of src/: a static library that may include and link only the floors named
# after USES. The link order is the rule of the house made checkable: a floor that reaches upwards
# fails to link its own tests.

add_library(rtcmend_options INTERFACE)
target_compile_options(rtcmend_options INTERFACE -Wall -Wextra -Wpedantic -Wconversion -Wshadow)
if(CMAKE_CXX_COMPILER_ID STREQUAL GNU AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
  # GCC 12 sees overlaps in std::string's own copying that are not there (GCC bug 105651).
  target_compile_options(rtcmend_options INTERFACE -Wno-restrict)
endif()
target_include_directories(rtcmend_options INTERFACE ${PROJECT_SOURCE_DIR}/src)
if(RTCMEND_SANITIZE)
  target_compile_options(rtcmend_options INTERFACE -fsanitize=address,undefined
                         -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(rtcmend_options INTERFACE -fsanitize=address,undefined)
endif()
if(RTCMEND_FUZZ)
  target_compile_options(rtcmend_options INTERFACE -fsanitize=fuzzer-no-link)
endif()

if(WIN32)
  set(rtcmend_other_system posix)
else()
  set(rtcmend_other_system windows)
endif()

# rtcmend_floor(NAME [USES floor...] [LINKS library...] [EXTRA source...] [WITHOUT file...])
# Builds src/NAME/*.cpp (and EXTRA, for generated sources) as the static library rtcmend_NAME.
function(rtcmend_floor name)
  cmake_parse_arguments(FLOOR "" "" "USES;LINKS;EXTRA;WITHOUT" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/src/${name}/*.cpp)
  list(TRANSFORM FLOOR_WITHOUT PREPEND ${PROJECT_SOURCE_DIR}/src/${name}/)
  list(REMOVE_ITEM sources ${FLOOR_WITHOUT})
  # What the systems do differently stands in one file for each of them.
  list(FILTER sources EXCLUDE REGEX "_${rtcmend_other_system}\\.cpp$")
  add_library(rtcmend_${name} STATIC ${sources} ${FLOOR_EXTRA})
  list(TRANSFORM FLOOR_USES PREPEND rtcmend_)
  target_link_libraries(rtcmend_${name} PUBLIC rtcmend_options ${FLOOR_USES} ${FLOOR_LINKS})
  if(RTCMEND_FUZZ)
    rtcmend_share_headers(rtcmend_${name})
  endif()
endfunction()

# The headers that take a third of the time to compile are read once for all floors; not in a release
# build, so that a missing #include is noticed there.
function(rtcmend_share_headers target)
  if(target STREQUAL rtcmend_base)
    target_precompile_headers(rtcmend_base PRIVATE <algorithm> <map> <memory> <optional> <string> <variant>
                              <vector> <fmt/format.h> <nlohmann/json.hpp>)
  else()
    target_precompile_headers(${target} REUSE_FROM rtcmend_base)
  endif()
endfunction()

# What tests have in common: a level at which assertions, which are slow to optimise and run once, compile
# fast (the code under test keeps its own), and Catch2 read once, half the time of a small test. A
# compiler cache saves more, and knows nothing of headers read once.
function(rtcmend_share_test_headers target)
  if(CMAKE_BUILD_TYPE STREQUAL Release)
    target_compile_options(${target} PRIVATE -O1)
  endif()
  if(CMAKE_CXX_COMPILER_LAUNCHER AND NOT RTCMEND_FUZZ)
    return()
  endif()
  if(NOT target STREQUAL rtcmend_test_main)
    target_precompile_headers(${target} REUSE_FROM rtcmend_test_main)
  elseif(RTCMEND_FUZZ)
    target_precompile_headers(${target} PRIVATE <catch2/catch.hpp> <algorithm> <string> <vector>
                              <fmt/format.h> <nlohmann/json.hpp>)
  else()
    target_precompile_headers(${target} PRIVATE <catch2/catch.hpp>)
  endif()
endfunction()

# rtcmend_floor_tests(NAME [USES floor...] [PROGRAM])
# tests/NAME/*.cpp as one Catch2 program, one ctest entry a case. PROGRAM: they start rtcmend itself.
function(rtcmend_floor_tests name)
  cmake_parse_arguments(TESTS "PROGRAM" "" "USES" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/tests/${name}/*.cpp)
  if(NOT sources)
    return()
  endif()
  add_executable(tests_${name} ${sources})
  list(TRANSFORM TESTS_USES PREPEND rtcmend_)
  target_include_directories(tests_${name} PRIVATE ${PROJECT_SOURCE_DIR}/tests)
  target_link_libraries(tests_${name} PRIVATE ${TESTS_USES} rtcmend_test_main)
  target_compile_definitions(tests_${name} PRIVATE
    RTCMEND_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
  if(TESTS_PROGRAM)
    target_compile_definitions(tests_${name} PRIVATE RTCMEND_PROGRAM="$<TARGET_FILE:rtcmend>")
    add_dependencies(tests_${name} rtcmend)
  endif()
  rtcmend_share_test_headers(tests_${name})
  set(seconds 300)
  if(RTCMEND_SANITIZE)
    set(seconds 1200)  # the longest searches take ten times as long
  endif()
  rtcmend_discover(${name} ${seconds} ${sources})
endfunction()

# rtcmend_discover(NAME SECONDS source...)
# One ctest entry a case, each with one label: `quick` (all of them within seconds), `long`, or `count`, a
# long one that repeats the same code a thousand times and is not run again under the sanitizers. A tag
# that no source had when this was configured gets no list of its own, but its cases are never lost.
function(rtcmend_discover name seconds)
  set(quick "~[.]")
  foreach(source IN LISTS ARGN)
    file(STRINGS ${source} tagged REGEX "\\[long\\]|\\[count\\]")
    if(tagged MATCHES "\\[long\\]\"")
      set(quick "~[long]~[.]")
      set(long TRUE)
    endif()
    if(tagged MATCHES "\\[long\\]\\[count\\]")
      set(quick "~[long]~[.]")
      set(count "[long][count]~[.]")
    endif()
  endforeach()
  if(long AND count)
    set(long "[long]~[count]~[.]")
  elseif(long)
    set(long "[long]~[.]")
  endif()
  foreach(label IN ITEMS quick long count)
    if(${label})
      catch_discover_tests(tests_${name} TEST_SPEC "${${label}}" TEST_PREFIX "${name}: "
                           PROPERTIES TIMEOUT ${seconds} LABELS ${label})
    endif()
  endforeach()
endfunction()
