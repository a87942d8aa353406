# What `cmake --install` puts where, and the Debian package (`cpack -G DEB`, in the build folder).
# Whatever is installed anywhere in the tree is in the package too.

# The day on the manual page and in the package; SOURCE_DATE_EPOCH sets it.
string(TIMESTAMP day "%Y-%m-%d" UTC)
string(TIMESTAMP moment "%a, %d %b %Y %H:%M:%S +0000" UTC)

install(TARGETS waxwright RUNTIME DESTINATION bin)

find_program(GZIP gzip REQUIRED)
set(man_page ${CMAKE_BINARY_DIR}/waxwright.1)
add_custom_command(OUTPUT ${man_page}.gz
  COMMAND waxwright --man-page ${day} > ${man_page}
  COMMAND ${GZIP} -9nf ${man_page}
  DEPENDS waxwright VERBATIM)
add_custom_target(packaged-man-page ALL DEPENDS ${man_page}.gz)
install(FILES ${man_page}.gz DESTINATION share/man/man1)

set(shells ${CMAKE_SOURCE_DIR}/compiler/driver/shells)
install(FILES ${shells}/waxwright.bash DESTINATION share/bash-completion/completions
  RENAME waxwright)
install(FILES ${shells}/waxwright.fish DESTINATION share/fish/vendor_completions.d)
# Debian's zsh reads one folder in /usr, another in /usr/local.
install(CODE "
  set(from \"${shells}/_waxwright\")
  if(CMAKE_INSTALL_PREFIX MATCHES \"/usr$\")
    file(INSTALL \${from} DESTINATION \"\${CMAKE_INSTALL_PREFIX}/share/zsh/vendor-completions\")
  else()
    file(INSTALL \${from} DESTINATION \"\${CMAKE_INSTALL_PREFIX}/share/zsh/site-functions\")
  endif()")

set(doc share/doc/waxwright)
install(FILES README.md LICENSE DESTINATION ${doc})
install(FILES LICENSE DESTINATION ${doc} RENAME copyright) # where Debian looks for it
install(DIRECTORY docs examples DESTINATION ${doc})

add_custom_target(uninstall
  COMMAND ${CMAKE_COMMAND} -DMANIFEST=${CMAKE_BINARY_DIR}/install_manifest.txt
    -P ${CMAKE_CURRENT_LIST_DIR}/uninstall.cmake
  COMMENT "Taking away what was installed" VERBATIM)

# The package.

# Nobody's address: `.invalid` is no domain and never will be (RFC 2606).
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "Waxwright maintainers <waxwright@example.invalid>")
set(changelog ${CMAKE_BINARY_DIR}/changelog)
file(CONFIGURE OUTPUT ${changelog} @ONLY CONTENT "waxwright (@PROJECT_VERSION@) unstable; urgency=low

  * What is new stands in docs/changes.md, beside this file.

 -- @CPACK_DEBIAN_PACKAGE_MAINTAINER@  @moment@
")
add_custom_command(OUTPUT ${changelog}.gz COMMAND ${GZIP} -9nkf ${changelog} DEPENDS ${changelog}
  VERBATIM)
add_custom_target(packaged-changelog ALL DEPENDS ${changelog}.gz)
install(FILES ${changelog}.gz DESTINATION ${doc})

set(CPACK_PACKAGE_NAME waxwright)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_VENDOR "Waxwright maintainers")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ
  GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_SUGGESTS git)
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "language for container-candle recipes, and its compiler")
set(CPACK_PACKAGE_DESCRIPTION "A recipe for candles in jars and tins is written as text: the vessel,
the wax, the scent, the wick, the steps. Waxwright checks it before
anything is lit, and makes a batch sheet of it that says what to weigh
for each pot and what to do when. It also says what to buy and what a
candle costs.")
set(CPACK_GENERATOR DEB)
include(CPack)
