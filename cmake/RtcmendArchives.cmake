# tar and zip archives are read through libarchive. A static program needs its static library, and
# those of the compressions that it knows. Without libarchive, as in a build for another system,
# rtcmend still does everything else.

# rtcmend_link_archives(TARGET): defines RTCMEND_ARCHIVES there and links what it takes.
function(rtcmend_link_archives target)
  if(NOT CMAKE_CROSSCOMPILING)
    find_package(LibArchive QUIET)
  endif()
  if(NOT LibArchive_FOUND)
    message(STATUS "libarchive was not found: audit will read no tar and zip archives")
    return()
  endif()
  set(libraries ${LibArchive_LIBRARIES})
  if(RTCMEND_STATIC)
    set(libraries)
    foreach(name archive nettle z bz2 lzma zstd)
      find_library(RTCMEND_STATIC_${name} lib${name}.a REQUIRED)
      list(APPEND libraries ${RTCMEND_STATIC_${name}})
    endforeach()
  endif()
  target_compile_definitions(${target} PRIVATE RTCMEND_ARCHIVES)
  target_include_directories(${target} SYSTEM PRIVATE ${LibArchive_INCLUDE_DIRS})
  target_link_libraries(${target} PRIVATE ${libraries})
endfunction()
