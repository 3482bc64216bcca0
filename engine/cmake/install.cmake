# What goes where, so that an installed copy may be moved as a whole: no file names the folder that it
# was built in or is installed to, unless a folder was asked for by an absolute path.
include(CMakePackageConfigHelpers)

install(TARGETS hammerline_command RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT program)
install(DIRECTORY rules/ DESTINATION ${CMAKE_INSTALL_DATADIR}/hammerline/rules COMPONENT program
  PATTERN "tests" EXCLUDE)
install(DIRECTORY sheets/ DESTINATION ${CMAKE_INSTALL_DATADIR}/hammerline/sheets COMPONENT program)
install(FILES README.md LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(DIRECTORY docs/ DESTINATION ${CMAKE_INSTALL_DOCDIR}/docs COMPONENT program
  FILES_MATCHING PATTERN "*.md" PATTERN "*.png" PATTERN "*.schema.json" PATTERN "man" EXCLUDE)

# The library, for other programs: header, archive, and how CMake and pkg-config find them.
set(config_folder ${CMAKE_INSTALL_LIBDIR}/cmake/hammerline)
set(library_targets hammerline)
install(TARGETS hammerline EXPORT hammerline
  ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT development)
if(HAMMERLINE_SHARED)
  install(TARGETS hammerline_shared EXPORT hammerline
    LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT library NAMELINK_COMPONENT development)
endif()
install(DIRECTORY engine/include/ DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} COMPONENT development)
install(EXPORT hammerline NAMESPACE hammerline:: FILE hammerline-targets.cmake
  DESTINATION ${config_folder} COMPONENT development)
configure_package_config_file(engine/cmake/hammerline-config.cmake.in hammerline-config.cmake
  INSTALL_DESTINATION ${config_folder} NO_SET_AND_CHECK_MACRO)
write_basic_package_version_file(hammerline-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/hammerline-config.cmake ${PROJECT_BINARY_DIR}/hammerline-config-version.cmake
  DESTINATION ${config_folder} COMPONENT development)

# pkg-config: relative to its own file where it can be, absolute where the builder asked for that.
if(IS_ABSOLUTE ${CMAKE_INSTALL_LIBDIR})
  set(pc_prefix ${CMAKE_INSTALL_PREFIX})
  set(pc_libdir ${CMAKE_INSTALL_LIBDIR})
else()
  file(RELATIVE_PATH pc_up /prefix/${CMAKE_INSTALL_LIBDIR}/pkgconfig /prefix)
  string(REGEX REPLACE "/$" "" pc_up "${pc_up}")
  set(pc_prefix "\${pcfiledir}/${pc_up}")
  set(pc_libdir "\${prefix}/${CMAKE_INSTALL_LIBDIR}")
endif()
if(IS_ABSOLUTE ${CMAKE_INSTALL_INCLUDEDIR})
  set(pc_includedir ${CMAKE_INSTALL_INCLUDEDIR})
else()
  set(pc_includedir "\${prefix}/${CMAKE_INSTALL_INCLUDEDIR}")
endif()
# An archive brings what it needs; a shared library has found it already.
set(pc_private "")
if(HAMMERLINE_SHARED)
  set(pc_private ".private")
endif()
configure_file(engine/cmake/hammerline.pc.in hammerline.pc @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/hammerline.pc DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig
  COMPONENT development)
