# The built-in layouts are read and proven by the build, so that starting the program need not: a
# small tool made from the layout floor packs each into bytes (src/layout/packed.h).

# A build for another kind of machine cannot run the tool, and takes what an ordinary build made.

set(RTCMEND_PACKED_LAYOUTS "" CACHE FILEPATH
    "In a build for another machine: src/packed_layouts.cpp of an ordinary build of the same sources")

# rtcmend_pack_layouts(): makes rtcmend_packed_layouts, which every user of rtcmend_layout links.
function(rtcmend_pack_layouts)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/packed_layouts.cpp)
  if(CMAKE_CROSSCOMPILING)
    if(NOT EXISTS "${RTCMEND_PACKED_LAYOUTS}")
      message(FATAL_ERROR "RTCMEND_PACKED_LAYOUTS is missing: build rtcmend_packed_layouts for this "
              "machine first, as scripts/page.sh and scripts/package_windows.sh do")
    endif()
    set(source ${RTCMEND_PACKED_LAYOUTS})
  else()
    # The tool defines an empty table of its own, so it takes the floor without what comes after it.
    add_executable(rtcmend_pack_tool ${PROJECT_SOURCE_DIR}/cmake/pack_layouts.cpp)
    add_dependencies(rtcmend_pack_tool rtcmend_layout)
    target_link_libraries(rtcmend_pack_tool PRIVATE $<TARGET_FILE:rtcmend_layout> rtcmend_check
                          rtcmend_chip rtcmend_base)
    add_custom_command(OUTPUT ${source}
      COMMAND rtcmend_pack_tool > ${source} DEPENDS rtcmend_pack_tool VERBATIM)
  endif()
  add_library(rtcmend_packed_layouts STATIC ${source})
  target_link_libraries(rtcmend_packed_layouts PRIVATE rtcmend_options)
  target_link_libraries(rtcmend_layout INTERFACE rtcmend_packed_layouts)
endfunction()
