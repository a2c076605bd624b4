# Building for the browser: Emscripten must not see the system's own headers, only those of the
# header-only libraries, which are therefore put into a folder by themselves.

set(folder ${CMAKE_BINARY_DIR}/header_only)
file(MAKE_DIRECTORY ${folder})
foreach(library fmt nlohmann rapidjson)
  if(NOT EXISTS /usr/include/${library})
    message(FATAL_ERROR "/usr/include/${library} is needed (scripts/packages.sh page)")
  endif()
  file(CREATE_LINK /usr/include/${library} ${folder}/${library} SYMBOLIC)
endforeach()

foreach(target fmt::fmt nlohmann_json::nlohmann_json)
  add_library(${target} INTERFACE IMPORTED GLOBAL)
  target_include_directories(${target} SYSTEM INTERFACE ${folder})
endforeach()

# The page is sent to people: small comes before fast.
set(CMAKE_CXX_FLAGS_RELEASE "-Os -DNDEBUG")
# Exceptions as WebAssembly has them: without, every call that might throw takes a way round through
# the page's script.
add_compile_options(-fwasm-exceptions "SHELL:-include ${PROJECT_SOURCE_DIR}/src/page/missing_ranges.h")
add_link_options(-fwasm-exceptions)
