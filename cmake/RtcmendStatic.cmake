# A command of a few milliseconds spends most of them in the dynamic loader, looking up the C++
# library's symbols. So the release program is linked statically, and also runs on a machine that
# has none of the libraries.

set(static_by_default OFF)
if(CMAKE_BUILD_TYPE STREQUAL Release AND CMAKE_SYSTEM_NAME STREQUAL Linux AND NOT RTCMEND_SANITIZE)
  set(static_by_default ON)
endif()
option(RTCMEND_STATIC "Link the program with no shared library" ${static_by_default})

# rtcmend_find_fmt(): makes rtcmend_fmt: fmt as the system has it, or its compiled half made here
# where a static program or one for another system needs it.
function(rtcmend_find_fmt)
  get_target_property(kind fmt::fmt TYPE)
  if(NOT CMAKE_CROSSCOMPILING AND NOT (RTCMEND_STATIC AND kind STREQUAL SHARED_LIBRARY))
    add_library(rtcmend_fmt INTERFACE)
    target_link_libraries(rtcmend_fmt INTERFACE fmt::fmt)
    return()
  endif()
  add_library(rtcmend_fmt STATIC ${PROJECT_SOURCE_DIR}/cmake/fmt/whole.cpp)
  get_target_property(headers fmt::fmt INTERFACE_INCLUDE_DIRECTORIES)
  target_include_directories(rtcmend_fmt SYSTEM PUBLIC ${headers})
endfunction()

# Thousands of addresses are put right at each start; packed they take a fortieth of the room, and a
# short command's time falls by a twentieth.
include(CheckLinkerFlag)
check_linker_flag(CXX "-Wl,-z,pack-relative-relocs" RTCMEND_PACKS_RELOCATIONS)

# rtcmend_link_statically(TARGET): does so when it is asked for, as a position-independent program:
# a fixed one registers its unwind tables and sorts them at the first exception, which costs more
# than everything else that a short command does. For Windows it is always done: nobody there has the
# compiler's libraries.
function(rtcmend_link_statically target)
  if(WIN32)
    target_link_options(${target} PRIVATE -static)
  elseif(RTCMEND_STATIC)
    target_link_options(${target} PRIVATE -static-pie)
    if(RTCMEND_PACKS_RELOCATIONS)
      target_link_options(${target} PRIVATE -Wl,-z,pack-relative-relocs)
    endif()
  endif()
endfunction()
