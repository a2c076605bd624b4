# The firmware against a simulated chip: in libsimavr, which runs an ATmega328P. Left out, with a
# word, where avr-gcc or libsimavr is missing.

find_path(RTCMEND_SIMAVR_INCLUDE sim_avr.h PATH_SUFFIXES simavr)
find_library(RTCMEND_SIMAVR simavr)
if(NOT RTCMEND_AVR_GCC OR NOT RTCMEND_AVR_OBJCOPY OR NOT RTCMEND_SIMAVR OR NOT RTCMEND_SIMAVR_INCLUDE)
  message(STATUS "The tests of the bench board's firmware are left out: they need gcc-avr, avr-libc and libsimavr-dev")
  return()
endif()

set(firmware_hex ${CMAKE_CURRENT_BINARY_DIR}/board_firmware.hex)
rtcmend_compile_firmware(${firmware_hex} ${rtcmend_firmware_folder})
set(firmware_made ${firmware_hex})

file(GLOB simulated CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/firmware/simulated/*.cpp)
add_library(rtcmend_simulated_board STATIC ${simulated})
# The simulation runs thousands of millions of clocks, in debug builds too.
target_compile_options(rtcmend_simulated_board PRIVATE -O2)
target_include_directories(rtcmend_simulated_board PUBLIC ${CMAKE_CURRENT_SOURCE_DIR}/firmware)
target_include_directories(rtcmend_simulated_board SYSTEM PRIVATE ${RTCMEND_SIMAVR_INCLUDE})
target_link_libraries(rtcmend_simulated_board PUBLIC rtcmend_board PRIVATE ${RTCMEND_SIMAVR})

rtcmend_floor_tests(firmware USES board simulated_board upkeep layout page PROGRAM)
add_custom_target(rtcmend_firmware_made DEPENDS ${firmware_made})
add_dependencies(tests_firmware rtcmend_firmware_made)
target_compile_definitions(tests_firmware PRIVATE RTCMEND_FIRMWARE="${firmware_hex}")

# The same at the far end of a pseudo-terminal, for the real program.
add_executable(board_on_terminal firmware/on_terminal/main.cpp)
target_link_libraries(board_on_terminal PRIVATE rtcmend_simulated_board)
add_dependencies(tests_firmware board_on_terminal)
target_compile_definitions(tests_firmware PRIVATE
                           RTCMEND_BOARD_ON_TERMINAL="$<TARGET_FILE:board_on_terminal>")

# Firmwares with one thing wrong each.
set(LIST ${CMAKE_CURRENT_SOURCE_DIR}/firmware/mutants.cmake)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${LIST})
include(${PROJECT_SOURCE_DIR}/cmake/mutate.cmake)
file(GLOB firmware_sources CONFIGURE_DEPENDS ${rtcmend_firmware_folder}/*.[ch])
foreach(name IN LISTS RTCMEND_MUTANTS)
  set(folder ${CMAKE_CURRENT_BINARY_DIR}/mutants/${name})
  file(GLOB sources RELATIVE ${rtcmend_firmware_folder} ${rtcmend_firmware_folder}/*.c)
  list(TRANSFORM sources PREPEND ${folder}/)
  add_custom_command(OUTPUT ${sources}
    COMMAND ${CMAKE_COMMAND} -DNAME=${name} -DLIST=${LIST} -DFROM=${rtcmend_firmware_folder}
            -DOUT=${folder} -P ${PROJECT_SOURCE_DIR}/cmake/mutate.cmake
    COMMAND ${CMAKE_COMMAND} -E touch ${sources}
    DEPENDS ${firmware_sources} ${LIST} ${PROJECT_SOURCE_DIR}/cmake/mutate.cmake VERBATIM)
  rtcmend_compile_firmware(${CMAKE_CURRENT_BINARY_DIR}/mutants/${name}.hex ${folder})
  list(APPEND mutant_hexes ${CMAKE_CURRENT_BINARY_DIR}/mutants/${name}.hex)
endforeach()
add_custom_target(rtcmend_mutants DEPENDS ${mutant_hexes})
add_dependencies(tests_firmware rtcmend_mutants)
list(JOIN RTCMEND_MUTANTS "," mutant_names)
target_compile_definitions(tests_firmware PRIVATE RTCMEND_MUTANTS="${mutant_names}"
                           RTCMEND_MUTANTS_IN="${CMAKE_CURRENT_BINARY_DIR}/mutants")

# The example workshop's walkthrough writes a chip as well.
set(walkthrough_board "BOARD_ON_TERMINAL=$<TARGET_FILE:board_on_terminal>;BOARD_FIRMWARE=${firmware_hex}")
