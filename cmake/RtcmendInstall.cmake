# What an installation holds: the program, its manual pages, the completion for three shells, the
# handbook and the example workshop. Pages and completion come from the program itself, so that they
# say what it says; a cross-built program cannot be asked, and is installed alone.

include(GNUInstallDirs)
install(TARGETS rtcmend RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
# The page takes Emscripten to build, so it is made first and handed in (scripts/package.sh).
set(RTCMEND_PAGE_FILE "" CACHE FILEPATH "The workbench page to install; empty = none")
if(RTCMEND_PAGE_FILE)
  install(FILES ${RTCMEND_PAGE_FILE} DESTINATION ${CMAKE_INSTALL_DATADIR}/rtcmend)
endif()
if(CMAKE_CROSSCOMPILING)
  return()
endif()

set(spoken ${PROJECT_BINARY_DIR}/spoken)
file(MAKE_DIRECTORY ${spoken})
file(GLOB handbook CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/docs/handbook/*.md)
list(SORT handbook)

# rtcmend_says(FILE WORD...): what the program prints for these words, as a file.
function(rtcmend_says file)
  add_custom_command(OUTPUT ${spoken}/${file}
    COMMAND rtcmend ${ARGN} > ${spoken}/${file}
    DEPENDS rtcmend VERBATIM)
endfunction()

# rtcmend_packed(FROM TO): compressed in a way that gives the same bytes every time.
function(rtcmend_packed from to)
  add_custom_command(OUTPUT ${spoken}/${to}
    COMMAND gzip -9nc ${from} > ${spoken}/${to}
    DEPENDS ${from} VERBATIM)
endfunction()

rtcmend_says(rtcmend.bash completion bash)
rtcmend_says(rtcmend.zsh completion zsh)
rtcmend_says(rtcmend.fish completion fish)
rtcmend_says(rtcmend.1 manual)
add_custom_command(OUTPUT ${spoken}/rtcmend-handbook.7
  COMMAND awk -v version=${PROJECT_VERSION} -f ${PROJECT_SOURCE_DIR}/scripts/handbook_man.awk
          ${handbook} > ${spoken}/rtcmend-handbook.7
  DEPENDS ${handbook} ${PROJECT_SOURCE_DIR}/scripts/handbook_man.awk VERBATIM)
rtcmend_packed(${spoken}/rtcmend.1 rtcmend.1.gz)
rtcmend_packed(${spoken}/rtcmend-handbook.7 rtcmend-handbook.7.gz)
rtcmend_packed(${PROJECT_SOURCE_DIR}/CHANGELOG.md changelog.gz)
add_custom_target(rtcmend_spoken ALL
  DEPENDS ${spoken}/rtcmend.bash ${spoken}/rtcmend.zsh ${spoken}/rtcmend.fish
          ${spoken}/rtcmend.1.gz ${spoken}/rtcmend-handbook.7.gz ${spoken}/changelog.gz)

# Debian's zsh looks for packages' completions in a folder of its own.
if(CMAKE_INSTALL_PREFIX STREQUAL /usr)
  set(zsh_folder zsh/vendor-completions)
else()
  set(zsh_folder zsh/site-functions)
endif()
install(FILES ${spoken}/rtcmend.bash RENAME rtcmend
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${spoken}/rtcmend.zsh RENAME _rtcmend
        DESTINATION ${CMAKE_INSTALL_DATADIR}/${zsh_folder})
install(FILES ${spoken}/rtcmend.fish
        DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
install(FILES ${spoken}/rtcmend.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${spoken}/rtcmend-handbook.7.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man7)
install(FILES README.md ${spoken}/changelog.gz DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(FILES LICENSE RENAME copyright DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(DIRECTORY docs/ DESTINATION ${CMAKE_INSTALL_DOCDIR}/docs)
install(DIRECTORY examples DESTINATION ${CMAKE_INSTALL_DOCDIR} USE_SOURCE_PERMISSIONS)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "the rtcmend authors <rtcmend@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "mend the battery-backed memory of a PC clock chip")
set(CPACK_PACKAGE_DESCRIPTION
    "Reads a dump of the clock chip of an AT-class PC in nearly any form, says what it means and
what is wrong with it, changes it by field, makes its checks right, composes an image from
nothing, and brings it into the machine by floppy, DOS program, debugger, BASIC or keyboard.")
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
include(CPack)
