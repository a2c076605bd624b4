# Layout files become part of the program: each JSON file under layouts/ turns into one entry of a
# table in a generated source, so that the one binary works anywhere.

# rtcmend_embed_layouts(OUT): sets OUT to the generated source.
function(rtcmend_embed_layouts out)
  file(GLOB_RECURSE files CONFIGURE_DEPENDS RELATIVE ${PROJECT_SOURCE_DIR}/layouts
       ${PROJECT_SOURCE_DIR}/layouts/*.json)
  list(SORT files)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/embedded_layouts.cpp)
  list(TRANSFORM files PREPEND ${PROJECT_SOURCE_DIR}/layouts/ OUTPUT_VARIABLE paths)
  add_custom_command(OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DOUT=${source} -DROOT=${PROJECT_SOURCE_DIR}/layouts
            "-DFILES=${files}" -P ${PROJECT_SOURCE_DIR}/cmake/embed.cmake
    DEPENDS ${paths} ${PROJECT_SOURCE_DIR}/cmake/embed.cmake VERBATIM)
  set(${out} ${source} PARENT_SCOPE)
endfunction()

# rtcmend_embed_text(OUT FILE FUNCTION HEADER): sets OUT to a generated source that defines
# `std::string_view rtcmend::FUNCTION()`, declared in HEADER, as the text of FILE.
function(rtcmend_embed_text out file function header)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/${function}.cpp)
  add_custom_command(OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DOUT=${source} -DFILE=${file} -DFUNCTION=${function}
            -DHEADER=${header} -P ${PROJECT_SOURCE_DIR}/cmake/embed_text.cmake
    DEPENDS ${file} ${PROJECT_SOURCE_DIR}/cmake/embed_text.cmake VERBATIM)
  set(${out} ${source} PARENT_SCOPE)
endfunction()
