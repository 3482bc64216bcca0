# Run by cpack on the staged files of a source package: the files of the top folder, and the manual pages
# and completions ready, for a machine that can't make them.
if(NOT CPACK_TOPLEVEL_TAG MATCHES "-Source$")
  return()
endif()
file(GLOB top_files LIST_DIRECTORIES FALSE ${CPACK_HAMMERLINE_SOURCE}/*.md ${CPACK_HAMMERLINE_SOURCE}/LICENSE
  ${CPACK_HAMMERLINE_SOURCE}/CMakeLists.txt ${CPACK_HAMMERLINE_SOURCE}/.clang-format
  ${CPACK_HAMMERLINE_SOURCE}/.luacheckrc ${CPACK_HAMMERLINE_SOURCE}/.gitignore)
file(COPY ${top_files} DESTINATION ${CPACK_TEMPORARY_DIRECTORY})
foreach(file IN LISTS CPACK_HAMMERLINE_READY)
  if(NOT EXISTS ${file})
    message(FATAL_ERROR "${file} is not there; build first, then pack")
  endif()
  file(COPY ${file} DESTINATION ${CPACK_TEMPORARY_DIRECTORY}/docs/man/ready)
endforeach()
