# What is installed beside the program, and the Debian package made of it.
find_program(GZIP gzip REQUIRED)
set(made ${PROJECT_BINARY_DIR}/made)
file(MAKE_DIRECTORY ${made})

# The man page and the completions come from the program's own table of commands.
add_custom_command(OUTPUT ${made}/placer.1.gz ${made}/placer.bash ${made}/_placer ${made}/placer.fish
  COMMAND placer --write-for man > ${made}/placer.1
  COMMAND ${GZIP} -9nf ${made}/placer.1
  COMMAND placer --write-for bash > ${made}/placer.bash
  COMMAND placer --write-for zsh > ${made}/_placer
  COMMAND placer --write-for fish > ${made}/placer.fish
  DEPENDS placer VERBATIM)
add_custom_target(placer_made ALL DEPENDS ${made}/placer.1.gz)

# Policy wants a changelog and the licence where every package has them.
file(WRITE ${made}/changelog
  "placer (${PROJECT_VERSION}) stable; urgency=medium\n\n"
  "  * See the end of README.md for what has changed.\n\n"
  " -- placer authors <placer@example.org>  Wed, 04 Nov 2026 00:00:00 +0000\n")
execute_process(COMMAND ${GZIP} -9nfk ${made}/changelog)
file(READ ${PROJECT_SOURCE_DIR}/LICENSE licence)
file(WRITE ${made}/copyright "Upstream-Name: placer\n\n${licence}")

install(TARGETS placer RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(DIRECTORY schedules DESTINATION ${CMAKE_INSTALL_DATADIR}/placer
        FILE_PERMISSIONS OWNER_READ OWNER_WRITE GROUP_READ WORLD_READ
        DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
                              WORLD_READ WORLD_EXECUTE)
install(FILES ${made}/placer.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${made}/placer.bash RENAME placer
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${made}/_placer DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES ${made}/placer.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
install(FILES ${made}/changelog.gz ${made}/copyright
        DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/placer)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME placer)
set(CPACK_PACKAGE_VENDOR "placer authors")
set(CPACK_PACKAGE_CONTACT "placer authors <placer@example.org>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "${PROJECT_DESCRIPTION}")
set(CPACK_PACKAGE_DESCRIPTION
"placer reads a studio file (pieces, kiln, shelves, posts, firing) and plans
which piece goes in which firing, on which shelf and where. It builds the
schedule to the cone and prints the sheets to carry to the kiln.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ
    GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-dejavu-core, tzdata")
set(CPACK_DEBIAN_PACKAGE_SECTION graphics)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
include(CPack)
