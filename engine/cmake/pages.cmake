# Manual pages and completions.  make_pages writes both from the option table and docs/, the pages as
# Markdown, of which cmark makes manual pages.  A source package brings all of them ready, in docs/man/ready,
# for a machine without cmark, or one that can't run what it builds.
option(HAMMERLINE_PAGES "Make and install manual pages and completions" ON)
if(NOT HAMMERLINE_PAGES)
  return()
endif()

# The same table that the program has; a new command needs its file in docs/man and a word here.
set(page_commands audit walk why verify plan sheet report rules)
set(page_names hammerline.1)
foreach(name IN LISTS page_commands)
  list(APPEND page_names hammerline-${name}.1)
endforeach()
list(APPEND page_names hammerline-sheet.5 hammerline-rules.5)
set(completion_names hammerline.bash _hammerline hammerline.fish)
set(pages_ready ${PROJECT_SOURCE_DIR}/docs/man/ready)
set(pages_folder ${PROJECT_BINARY_DIR}/pages)

find_program(HAMMERLINE_CMARK cmark DOC "Makes manual pages of Markdown")
set(can_run TRUE)
if(CMAKE_CROSSCOMPILING AND NOT CMAKE_CROSSCOMPILING_EMULATOR)
  set(can_run FALSE)
endif()

set(pages "")
set(completions "")
if(can_run)
  file(GLOB page_sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/engine/pages/*.c)
  add_executable(make_pages ${page_sources} $<TARGET_OBJECTS:hl_cli>)
  target_include_directories(make_pages PRIVATE $<TARGET_PROPERTY:hl_cli,INTERFACE_INCLUDE_DIRECTORIES>)
  target_link_libraries(make_pages PRIVATE hammerline)
  list(TRANSFORM completion_names PREPEND ${pages_folder}/ OUTPUT_VARIABLE completions)
  list(TRANSFORM page_names REPLACE "(.+)" "${pages_folder}/\\1.md" OUTPUT_VARIABLE page_texts)
  file(GLOB page_documents CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/docs/man/*.md)
  list(APPEND page_documents ${PROJECT_SOURCE_DIR}/docs/sheets.md ${PROJECT_SOURCE_DIR}/docs/rules.md)
  file(MAKE_DIRECTORY ${pages_folder})
  add_custom_command(OUTPUT ${page_texts} ${completions}
    COMMAND make_pages ${PROJECT_SOURCE_DIR}/docs ${pages_folder}
    DEPENDS make_pages ${page_documents}
    COMMENT "Writing manual pages and completions" VERBATIM)
endif()

if(can_run AND HAMMERLINE_CMARK)
  # SOURCE_DATE_EPOCH, when it is set, is the day.
  string(TIMESTAMP pages_day "%Y-%m-%d" UTC)
  foreach(page IN LISTS page_names)
    string(REGEX MATCH "^(.*)\\.([15])$" page_parts ${page})
    add_custom_command(OUTPUT ${pages_folder}/${page}
      COMMAND ${CMAKE_COMMAND} -DCMARK=${HAMMERLINE_CMARK} -DFROM=${pages_folder}/${page}.md
        -DTO=${pages_folder}/${page} -DNAME=${CMAKE_MATCH_1} -DSECTION=${CMAKE_MATCH_2} -DDAY=${pages_day}
        -DVERSION=${PROJECT_VERSION} -P ${PROJECT_SOURCE_DIR}/engine/cmake/man_page.cmake
      DEPENDS ${pages_folder}/${page}.md ${PROJECT_SOURCE_DIR}/engine/cmake/man_page.cmake VERBATIM)
    list(APPEND pages ${pages_folder}/${page})
  endforeach()
elseif(EXISTS ${pages_ready}/hammerline.1)
  list(TRANSFORM page_names PREPEND ${pages_ready}/ OUTPUT_VARIABLE pages)
else()
  message(STATUS "no cmark: no manual pages")
endif()
if(NOT can_run AND EXISTS ${pages_ready}/hammerline.bash)
  list(TRANSFORM completion_names PREPEND ${pages_ready}/ OUTPUT_VARIABLE completions)
endif()
add_custom_target(pages ALL DEPENDS ${pages} ${completions})

foreach(page IN LISTS pages)
  string(REGEX MATCH "[15]$" section ${page})
  install(FILES ${page} DESTINATION ${CMAKE_INSTALL_MANDIR}/man${section} COMPONENT program)
endforeach()
if(completions)
  list(GET completions 0 bash_completion)
  list(GET completions 1 zsh_completion)
  list(GET completions 2 fish_completion)
  install(FILES ${bash_completion} RENAME hammerline COMPONENT program
    DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
  install(FILES ${zsh_completion} COMPONENT program DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/site-functions)
  install(FILES ${fish_completion} COMPONENT program
    DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
endif()
