# The workbench page is the same core compiled for the browser, so it is a build of its own inside
# this one. The result is one file: ${CMAKE_BINARY_DIR}/page/rtcmend.html.

include(ExternalProject)
set(RTCMEND_EMSCRIPTEN /usr/share/emscripten/cmake/Modules/Platform/Emscripten.cmake
    CACHE FILEPATH "Emscripten's toolchain file")
if(NOT EXISTS ${RTCMEND_EMSCRIPTEN})
  message(FATAL_ERROR "RTCMEND_PAGE needs Emscripten (scripts/packages.sh page)")
endif()

ExternalProject_Add(rtcmend_page_build
  SOURCE_DIR ${PROJECT_SOURCE_DIR}
  BINARY_DIR ${CMAKE_BINARY_DIR}/page
  CMAKE_ARGS -DCMAKE_TOOLCHAIN_FILE=${RTCMEND_EMSCRIPTEN} -DCMAKE_BUILD_TYPE=Release
             -DBUILD_TESTING=OFF -DRTCMEND_PAGE=ON
             -DRTCMEND_PACKED_LAYOUTS=${CMAKE_BINARY_DIR}/src/packed_layouts.cpp
             -DCMAKE_CXX_COMPILER_LAUNCHER=${CMAKE_CXX_COMPILER_LAUNCHER}
  # Debian keeps the optimiser's modules where node does not look by itself.
  BUILD_COMMAND ${CMAKE_COMMAND} -E env NODE_PATH=/usr/share/nodejs
                ${CMAKE_COMMAND} --build <BINARY_DIR> --target rtcmend_html
  INSTALL_COMMAND ""
  DEPENDS rtcmend_packed_layouts
  BUILD_ALWAYS ON
  USES_TERMINAL_BUILD ON)
