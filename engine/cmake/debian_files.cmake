# Run by cpack on the staged files: what Debian wants besides - compressed pages, the licence under its
# own name in each package, a change log, archives without debug information.
if(NOT CPACK_GENERATOR STREQUAL DEB)
  return()
endif()
find_program(GZIP gzip REQUIRED)
find_program(STRIP strip)
set(name_program ${CPACK_DEBIAN_PROGRAM_PACKAGE_NAME})
set(name_development ${CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME})
set(name_library ${CPACK_DEBIAN_LIBRARY_PACKAGE_NAME})
foreach(component IN LISTS CPACK_COMPONENTS_ALL)
  set(root ${CPACK_TEMPORARY_DIRECTORY}/${component}${CPACK_PACKAGING_INSTALL_PREFIX})
  file(GLOB pages ${root}/share/man/man*/*)
  file(GLOB_RECURSE archives ${root}/lib/*.a)
  foreach(page IN LISTS pages)
    execute_process(COMMAND ${GZIP} -9nf ${page} COMMAND_ERROR_IS_FATAL ANY)
  endforeach()
  foreach(archive IN LISTS archives)
    if(STRIP)
      execute_process(COMMAND ${STRIP} --strip-debug --enable-deterministic-archives ${archive}
        COMMAND_ERROR_IS_FATAL ANY)
    endif()
  endforeach()
  file(REMOVE ${root}/share/doc/hammerline/LICENSE)
  # Not file(INSTALL): inside cpack that would put it below the staging folder once more.
  file(MAKE_DIRECTORY ${root}/share/doc/${name_${component}})
  file(COPY_FILE ${CPACK_RESOURCE_FILE_LICENSE} ${root}/share/doc/${name_${component}}/copyright)
  # The day follows SOURCE_DATE_EPOCH, where it is set.
  string(TIMESTAMP day "%a, %d %b %Y %H:%M:%S +0000" UTC)
  file(WRITE ${root}/share/doc/${name_${component}}/changelog
    "hammerline (${CPACK_PACKAGE_VERSION}) unstable; urgency=medium\n\n  * Version ${CPACK_PACKAGE_VERSION}.\n\n"
    " -- ${CPACK_PACKAGE_CONTACT}  ${day}\n")
  execute_process(COMMAND ${GZIP} -9nf ${root}/share/doc/${name_${component}}/changelog
    COMMAND_ERROR_IS_FATAL ANY)
endforeach()
