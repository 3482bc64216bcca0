# `cpack -G DEB` makes hammerline (program, books, pages) and libhammerline-dev (header, archive).
set(CPACK_PACKAGE_NAME hammerline)
set(CPACK_PACKAGE_VENDOR "The Hammerline contributors")
if(NOT CPACK_PACKAGE_CONTACT)
  # No such address can exist; who makes packages for others gives -DCPACK_PACKAGE_CONTACT=...
  set(CPACK_PACKAGE_CONTACT "The Hammerline contributors <contributors@hammerline.invalid>")
endif()
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "regulation of piano actions, checked and audited")
set(CPACK_RESOURCE_FILE_LICENSE ${PROJECT_SOURCE_DIR}/LICENSE)
set(CPACK_GENERATOR DEB)
set(CPACK_STRIP_FILES ON)
set(CPACK_PRE_BUILD_SCRIPTS ${PROJECT_SOURCE_DIR}/engine/cmake/debian_files.cmake
  ${PROJECT_SOURCE_DIR}/engine/cmake/source_files.cmake)

# `cpack --config CPackSourceConfig.cmake`: the source, with the manual pages and completions ready.
set(CPACK_SOURCE_GENERATOR TGZ)
set(CPACK_SOURCE_PACKAGE_FILE_NAME hammerline-${PROJECT_VERSION})
set(CPACK_SOURCE_IGNORE_FILES "/docs/man/ready/")
set(CPACK_SOURCE_INSTALLED_DIRECTORIES "")
foreach(folder IN ITEMS engine rules tests sheets docs .ci)
  list(APPEND CPACK_SOURCE_INSTALLED_DIRECTORIES ${PROJECT_SOURCE_DIR}/${folder} ${folder})
endforeach()
set(CPACK_HAMMERLINE_SOURCE ${PROJECT_SOURCE_DIR})
set(CPACK_HAMMERLINE_READY ${pages} ${completions})

set(CPACK_COMPONENTS_ALL program development)
if(HAMMERLINE_SHARED)
  list(APPEND CPACK_COMPONENTS_ALL library)
endif()
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_GENERATE_SHLIBS ON)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)

set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME hammerline)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION utils)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION
  "Takes a piano technician through the regulation of a grand or upright action:
checks every reading against the shop's own targets, says what to turn, shim
or bend and by how much, and tells whether the whole instrument is ready.")

set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libhammerline-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "libc6-dev, liblua5.4-dev")
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION
  "Header and library of the engine that reads books and sheets, judges and
plans, for programs in C and C++.")

if(HAMMERLINE_SHARED)
  set(CPACK_DEBIAN_LIBRARY_PACKAGE_NAME libhammerline0)
  set(CPACK_DEBIAN_LIBRARY_PACKAGE_SECTION libs)
  set(CPACK_COMPONENT_LIBRARY_DESCRIPTION "The engine as a shared library.")
  string(APPEND CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS ", libhammerline0 (= ${PROJECT_VERSION})")
endif()
include(CPack)
