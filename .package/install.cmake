# What `cmake --install` puts where. Two parts: the program with its papers, and the libraries for other programs.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

install(TARGETS budclock RUNTIME COMPONENT program)
if(NOT BUDCLOCK_DEB)  # Debian packs it
  install(FILES ${PROJECT_BINARY_DIR}/budclock.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
endif()
install(FILES .package/budclock.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME budclock
        COMPONENT program)
# Debian's zsh looks into vendor-completions, others into site-functions.
set(BUDCLOCK_ZSH_DIR zsh/site-functions CACHE STRING "Where zsh looks for completions, in the data folder")
install(FILES .package/budclock.zsh DESTINATION ${CMAKE_INSTALL_DATADIR}/${BUDCLOCK_ZSH_DIR} RENAME _budclock
        COMPONENT program)
set(papers README.md DEVELOPERS.md)
if(NOT BUDCLOCK_DEB)  # Debian has the licence in its copyright file
  list(APPEND papers LICENSE)
endif()
install(FILES ${papers} DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(DIRECTORY examples/ DESTINATION ${CMAKE_INSTALL_DOCDIR}/examples COMPONENT program
        PATTERN first-forecast.sh EXCLUDE  # builds from a source tree
        PATTERN packages.sh EXCLUDE
        PATTERN relayout_*.py EXCLUDE)
install(DIRECTORY data/ DESTINATION ${CMAKE_INSTALL_DATADIR}/budclock COMPONENT program)

# The modules that others may use; `cli` is the program itself.
set(installed_modules core files document degree_day weather rules sites journal forecast report)
list(TRANSFORM installed_modules PREPEND budclock_ OUTPUT_VARIABLE installed_targets)
install(TARGETS ${installed_targets} EXPORT budclock ARCHIVE COMPONENT library)
install(DIRECTORY include/budclock DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} COMPONENT library)
set(config_folder ${CMAKE_INSTALL_LIBDIR}/cmake/budclock)
install(EXPORT budclock NAMESPACE budclock:: FILE budclock-targets.cmake DESTINATION ${config_folder} COMPONENT library)
configure_package_config_file(.package/budclock-config.cmake.in ${PROJECT_BINARY_DIR}/budclock-config.cmake
                              INSTALL_DESTINATION ${config_folder})
# Before 1.0 a second number may change what a program that uses the libraries relies on.
write_basic_package_version_file(${PROJECT_BINARY_DIR}/budclock-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/budclock-config.cmake ${PROJECT_BINARY_DIR}/budclock-config-version.cmake
        DESTINATION ${config_folder} COMPONENT library)
