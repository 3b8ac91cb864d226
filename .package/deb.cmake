# Debian packages, by `cpack -G DEB` in a build folder configured with -DCMAKE_INSTALL_PREFIX=/usr: the program, and the
# libraries for other programs.
find_program(GZIP gzip REQUIRED)
file(READ DEVELOPERS.md document)
string(REGEX MATCH "\n### ${PROJECT_VERSION}\n(.*)" section "${document}")
string(REGEX REPLACE "\n#+ .*" "" changes "${CMAKE_MATCH_1}")
string(REGEX REPLACE "\n- " "\n  * " changes "\n${changes}")
string(REGEX REPLACE "\n  ([^ *])" "\n    \\1" changes "${changes}")
string(REGEX REPLACE "\n\n+" "\n" changes "${changes}")
string(STRIP "${changes}" changes)
execute_process(COMMAND date -u -R -d ${BUDCLOCK_RELEASED} OUTPUT_VARIABLE released OUTPUT_STRIP_TRAILING_WHITESPACE)
set(maintainer "The budclock authors <maintainers@users.noreply.v-seed-ee9d32e2.example>")
file(WRITE ${PROJECT_BINARY_DIR}/deb/changelog
     "budclock (${PROJECT_VERSION}) unstable; urgency=medium\n\n  ${changes}\n\n -- ${maintainer}  ${released}\n")
# -n: no name and no time in the packed file.
execute_process(COMMAND ${GZIP} -9nkf ${PROJECT_BINARY_DIR}/deb/changelog COMMAND_ERROR_IS_FATAL ANY)
add_custom_command(OUTPUT ${PROJECT_BINARY_DIR}/deb/budclock.1.gz
                   COMMAND ${GZIP} -9nc ${PROJECT_BINARY_DIR}/budclock.1 > ${PROJECT_BINARY_DIR}/deb/budclock.1.gz
                   DEPENDS ${PROJECT_BINARY_DIR}/budclock.1)
add_custom_target(packed_manual ALL DEPENDS ${PROJECT_BINARY_DIR}/deb/budclock.1.gz)

install(FILES ${PROJECT_BINARY_DIR}/deb/budclock.1.gz DESTINATION share/man/man1 COMPONENT program)
foreach(package budclock libbudclock-dev)
  set(component program)
  if(package STREQUAL "libbudclock-dev")
    set(component library)
  endif()
  install(FILES .package/copyright ${PROJECT_BINARY_DIR}/deb/changelog.gz DESTINATION share/doc/${package}
          COMPONENT ${component})
endforeach()

set(CPACK_GENERATOR DEB)
set(CPACK_COMPONENTS_ALL program library)
set(CPACK_COMPONENTS_GROUPING IGNORE)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_PACKAGE_CONTACT "${maintainer}")
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME budclock)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "forecast when landscape pests can be reached
 From a site's daily temperatures budclock tells which stage of which pest is
 due, when to look, when a treatment window opens and closes, and what must not
 be done. What a scout finds, the label and the law decide what is done.")
set(CPACK_DEBIAN_LIBRARY_PACKAGE_NAME libbudclock-dev)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_DEPENDS
    "libhowardhinnant-date-dev (>= 3.0), libfmt-dev (>= 9), zlib1g-dev, libical-dev (>= 3.0), uuid-dev (>= 2.38), pkg-config")
set(CPACK_COMPONENT_LIBRARY_DESCRIPTION "forecasts of landscape pests - development files
 The headers and static libraries of budclock, with which a program reads
 weather records and dates the stages and windows of pests.")
include(CPack)
