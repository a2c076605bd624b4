# The programs for the old machine are assembly sources; nasm turns each into a flat binary, and the
# binaries become one generated C++ source, so that the one program works anywhere.

find_program(RTCMEND_NASM nasm)
if(NOT RTCMEND_NASM)
  message(FATAL_ERROR "nasm is needed to build the programs for the old machine (package nasm)")
endif()

# rtcmend_assemble(OUT FOLDER): every .asm file of FOLDER (.inc files are shared pieces) becomes an
# entry of the table in the generated source that OUT names.
function(rtcmend_assemble out folder)
  file(GLOB programs CONFIGURE_DEPENDS ${folder}/*.asm)
  file(GLOB pieces CONFIGURE_DEPENDS ${folder}/*.inc)
  set(binaries)
  foreach(program IN LISTS programs)
    get_filename_component(name ${program} NAME_WE)
    set(binary ${CMAKE_CURRENT_BINARY_DIR}/asm/${name}.bin)
    add_custom_command(OUTPUT ${binary}
      COMMAND ${CMAKE_COMMAND} -E make_directory ${CMAKE_CURRENT_BINARY_DIR}/asm
      COMMAND ${RTCMEND_NASM} -f bin -w+all -Werror -i ${folder}/ -o ${binary} ${program}
      DEPENDS ${program} ${pieces} VERBATIM)
    list(APPEND binaries ${binary})
  endforeach()
  set(source ${CMAKE_CURRENT_BINARY_DIR}/assembled.cpp)
  add_custom_command(OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DOUT=${source} "-DFILES=${binaries}"
            -P ${PROJECT_SOURCE_DIR}/cmake/assembled.cmake
    DEPENDS ${binaries} ${PROJECT_SOURCE_DIR}/cmake/assembled.cmake VERBATIM)
  set(${out} ${source} PARENT_SCOPE)
endfunction()
