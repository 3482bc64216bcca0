# Fault runs, confinement, fuzzing, locales: what must hold in strange hands.
option(HAMMERLINE_LONG_TESTS "Leave nothing out in the fault runs (some hours)" OFF)
if(HAMMERLINE_LONG_TESTS)
  set(long_environment ";HAMMERLINE_LONG=1")
  set_tests_properties(test_memory_audit PROPERTIES ENVIRONMENT "HAMMERLINE_LONG=1" TIMEOUT 7200)
endif()

# The walls are the command line's own; the test puts them up around its children.
set(cli ${PROJECT_SOURCE_DIR}/engine/cli)
target_sources(test_confine PRIVATE ${cli}/confinement/confine.c ${cli}/confinement/confine_files.c
  ${cli}/confinement/confine_calls.c ${cli}/commands/rules/folder.c ${cli}/output.c)
target_include_directories(test_confine PRIVATE $<TARGET_PROPERTY:hl_cli,INTERFACE_INCLUDE_DIRECTORIES>)
target_link_libraries(test_confine PRIVATE Threads::Threads)
if(HAMMERLINE_SANITIZE OR HAMMERLINE_COVERAGE)
  target_compile_definitions(test_confine PRIVATE HAMMERLINE_NO_WALLS)
endif()

target_link_libraries(test_lua_bugs PRIVATE PkgConfig::LUA)

foreach(script output_faults confine system_calls signature)
  add_test(NAME faults_${script} COMMAND bash ${CMAKE_CURRENT_SOURCE_DIR}/faults/${script}.sh)
  set_tests_properties(faults_${script} PROPERTIES TIMEOUT 600 SKIP_RETURN_CODE 77
    ENVIRONMENT "HAMMERLINE=$<TARGET_FILE:hammerline_command>;HAMMERLINE_ROOT=${PROJECT_SOURCE_DIR}${long_environment}")
endforeach()

# Fuzz targets: with HAMMERLINE_FUZZ as libFuzzer programs, else replaying their corpus is a test.
foreach(target sheet number journal rules fleet)
  add_executable(fuzz_${target} fuzz/fuzz_${target}.c)
  target_include_directories(fuzz_${target} PRIVATE fuzz)
  target_link_libraries(fuzz_${target} PRIVATE test_support)
  target_compile_definitions(fuzz_${target} PRIVATE
    TINY_FOLDER="${CMAKE_CURRENT_SOURCE_DIR}/golden/rules")
  if(HAMMERLINE_FUZZ)
    target_link_options(fuzz_${target} PRIVATE -fsanitize=fuzzer)
  else()
    target_sources(fuzz_${target} PRIVATE fuzz/replay.c)
    add_test(NAME fuzz_${target}_corpus
      COMMAND fuzz_${target} ${CMAKE_CURRENT_SOURCE_DIR}/fuzz/corpus/${target})
    set_tests_properties(fuzz_${target}_corpus PROPERTIES TIMEOUT 240)
  endif()
endforeach()

add_executable(locale_driver faults/locale_driver.c)
target_link_libraries(locale_driver PRIVATE hammerline)
add_test(NAME locales COMMAND bash ${CMAKE_CURRENT_SOURCE_DIR}/locales.sh)
set_tests_properties(locales PROPERTIES TIMEOUT 240 SKIP_RETURN_CODE 77
  ENVIRONMENT "HAMMERLINE=$<TARGET_FILE:hammerline_command>;HAMMERLINE_ROOT=${PROJECT_SOURCE_DIR};LOCALE_DRIVER=$<TARGET_FILE:locale_driver>")
