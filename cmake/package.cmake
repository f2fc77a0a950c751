# The Debian package of the program. Build it with tools/make-package; by hand:
#   cmake --preset release && cmake --build --preset release && (cd build/release && cpack -G DEB)
# What is installed beside the program (manual, completion, changelog) is made at that time by the program itself, so any
# build of `redd` can be packed. With SOURCE_DATE_EPOCH set, the same program and sources give the same bytes.
set(REDD_PACKAGE_CONTACT "Redd maintainers <maintainers@redd.invalid>" CACHE STRING "Who answers for the package: Name <address>")

set(staged ${PROJECT_BINARY_DIR}/package_files)
install(CODE "
  set(REDD \"$<TARGET_FILE:redd>\")
  set(SOURCE \"${PROJECT_SOURCE_DIR}\")
  set(OUT \"${staged}\")
  set(VERSION \"${PROJECT_VERSION}\")
  set(CONTACT \"${REDD_PACKAGE_CONTACT}\")
  include(\"${PROJECT_SOURCE_DIR}/cmake/package_files.cmake\")"
  COMPONENT program)

install(TARGETS redd RUNTIME DESTINATION bin COMPONENT program)
install(DIRECTORY ${staged}/share DESTINATION . COMPONENT program)
install(FILES packaging/redd.service DESTINATION lib/systemd/user COMPONENT program)
install(PROGRAMS packaging/open-page DESTINATION libexec/redd COMPONENT program)
install(FILES packaging/redd.desktop DESTINATION share/applications COMPONENT program)
install(FILES web/public/favicon.svg DESTINATION share/icons/hicolor/scalable/apps RENAME redd.svg COMPONENT program)
install(FILES packaging/copyright DESTINATION share/doc/redd COMPONENT program)
install(FILES packaging/lintian-overrides DESTINATION share/lintian/overrides RENAME redd COMPONENT program)
install(DIRECTORY docs/guide docs/science DESTINATION share/doc/redd COMPONENT program)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME redd)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_CONTACT "${REDD_PACKAGE_CONTACT}")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_COMPONENTS_ALL program)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME redd)
set(CPACK_DEBIAN_PROGRAM_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION education)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
# Libraries are found by dpkg-shlibdeps; the time zones and the letters of printed sheets are the system's own.
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS "tzdata, fonts-dejavu-core")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "xdg-utils")
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION
"log of a cold-water tank for classroom salmon and trout eggs
Redd keeps the record of a chilled classroom aquarium from filling to release,
and says what today's water tests mean, how sure that is, and what to do.
It works as a page in the browser, served on this machine only, and on the
command line, in English and Spanish.
.
Seasons are kept in the home of whoever logs them. Removing the package leaves
them where they are.")
include(CPack)
