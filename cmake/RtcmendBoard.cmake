# The firmware of the bench board, by avr-gcc where it is present; the program carries it as Intel HEX.
# Without avr-gcc the program says that it was built without it, and the firmware's tests are left out.

find_program(RTCMEND_AVR_GCC avr-gcc)
find_program(RTCMEND_AVR_OBJCOPY avr-objcopy)
if(NOT RTCMEND_AVR_GCC OR NOT RTCMEND_AVR_OBJCOPY)
  message(STATUS "The bench board's firmware is left out: no avr-gcc (packages gcc-avr and avr-libc)")
endif()

set(rtcmend_firmware_folder ${PROJECT_SOURCE_DIR}/src/board/firmware)

# rtcmend_compile_firmware(HEX FOLDER [DEPENDS file...]): FOLDER/*.c become the file HEX.
function(rtcmend_compile_firmware hex folder)
  cmake_parse_arguments(FIRMWARE "" "" "DEPENDS" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS RELATIVE ${rtcmend_firmware_folder} ${rtcmend_firmware_folder}/*.c)
  file(GLOB headers CONFIGURE_DEPENDS ${rtcmend_firmware_folder}/*.h)
  list(TRANSFORM sources PREPEND ${folder}/)
  add_custom_command(OUTPUT ${hex}
    COMMAND ${RTCMEND_AVR_GCC} -mmcu=atmega328p -DF_CPU=16000000UL -Os -std=gnu11 -Wall -Wextra
            -Werror -ffunction-sections -Wl,--gc-sections ${sources} -o ${hex}.elf
    COMMAND ${RTCMEND_AVR_OBJCOPY} -O ihex -R .eeprom ${hex}.elf ${hex}
    DEPENDS ${sources} ${headers} ${FIRMWARE_DEPENDS} VERBATIM)
endfunction()

# rtcmend_embed_firmware(OUT): sets OUT to a generated source that defines
# `std::string_view rtcmend::firmware_hex()`, empty without avr-gcc.
function(rtcmend_embed_firmware out)
  set(hex ${CMAKE_CURRENT_BINARY_DIR}/board_firmware.hex)
  if(RTCMEND_AVR_GCC AND RTCMEND_AVR_OBJCOPY)
    rtcmend_compile_firmware(${hex} ${rtcmend_firmware_folder})
  else()
    # Of another name: else it would be taken for the firmware once avr-gcc is there again.
    set(hex ${CMAKE_CURRENT_BINARY_DIR}/no_board_firmware.hex)
    file(CONFIGURE OUTPUT ${hex} CONTENT "")
  endif()
  rtcmend_embed_text(source ${hex} firmware_hex board/firmware_hex.h)
  set(${out} ${source} PARENT_SCOPE)
endfunction()
