# The libraries that rtcmend stands on. On Linux as Debian packages them; for another system their
# headers alone, which are the same everywhere: Debian's folder of headers as a whole must not be
# seen by a compiler for another system, so the ones that are needed are linked into one of ours.

if(NOT CMAKE_CROSSCOMPILING)
  find_package(fmt REQUIRED)
  find_package(nlohmann_json REQUIRED)
  find_package(CLI11 REQUIRED)
  return()
endif()

set(headers ${PROJECT_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${headers})
foreach(library fmt nlohmann CLI rapidjson)
  if(NOT EXISTS /usr/include/${library})
    message(FATAL_ERROR "The headers of ${library} are missing: scripts/packages.sh build")
  endif()
  file(CREATE_LINK /usr/include/${library} ${headers}/${library} SYMBOLIC)
endforeach()
foreach(library fmt::fmt nlohmann_json::nlohmann_json CLI11::CLI11)
  add_library(${library} INTERFACE IMPORTED)
  target_include_directories(${library} SYSTEM INTERFACE ${headers})
endforeach()
