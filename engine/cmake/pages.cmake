# Manual pages and completions, made from the option table and docs/ by a program that is not installed.
# Where nothing that was built can be run (another machine's compiler), they are left out.
option(HAMMERLINE_PAGES "Make and install manual pages and completions" ON)
if(CMAKE_CROSSCOMPILING AND NOT CMAKE_CROSSCOMPILING_EMULATOR)
  set(HAMMERLINE_PAGES OFF)
endif()
if(NOT HAMMERLINE_PAGES)
  return()
endif()

file(GLOB page_sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/engine/pages/*.c)
add_executable(make_pages ${page_sources} $<TARGET_OBJECTS:hl_cli>)
target_include_directories(make_pages PRIVATE $<TARGET_PROPERTY:hl_cli,INTERFACE_INCLUDE_DIRECTORIES>)
target_link_libraries(make_pages PRIVATE hammerline)

# The same table that the program has; a new command needs its file in docs/man and a line here.
set(page_commands audit walk plan sheet report rules)
set(pages_folder ${PROJECT_BINARY_DIR}/pages)
set(pages_1 ${pages_folder}/hammerline.1)
foreach(name IN LISTS page_commands)
  list(APPEND pages_1 ${pages_folder}/hammerline-${name}.1)
endforeach()
set(pages_5 ${pages_folder}/hammerline-sheet.5 ${pages_folder}/hammerline-rules.5)
set(completions ${pages_folder}/hammerline.bash ${pages_folder}/_hammerline ${pages_folder}/hammerline.fish)
file(GLOB page_documents CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/docs/man/*.md)
list(APPEND page_documents ${PROJECT_SOURCE_DIR}/docs/sheets.md ${PROJECT_SOURCE_DIR}/docs/rules.md)
file(MAKE_DIRECTORY ${pages_folder})
# SOURCE_DATE_EPOCH, when it is set, is the day.
string(TIMESTAMP pages_date "%Y-%m-%d" UTC)
add_custom_command(OUTPUT ${pages_1} ${pages_5} ${completions}
  COMMAND make_pages ${PROJECT_SOURCE_DIR}/docs ${pages_folder} ${pages_date}
  DEPENDS make_pages ${page_documents}
  COMMENT "Making manual pages and completions" VERBATIM)
add_custom_target(pages ALL DEPENDS ${pages_1} ${pages_5} ${completions})

install(FILES ${pages_1} DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
install(FILES ${pages_5} DESTINATION ${CMAKE_INSTALL_MANDIR}/man5 COMPONENT program)
install(FILES ${pages_folder}/hammerline.bash RENAME hammerline COMPONENT program
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${pages_folder}/_hammerline COMPONENT program
  DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/site-functions)
install(FILES ${pages_folder}/hammerline.fish COMPONENT program
  DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
