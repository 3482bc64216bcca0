# Installed copies, packages, manual pages and completions.
function(hammerline_packaging_test name script)
  add_test(NAME ${name} COMMAND bash ${CMAKE_CURRENT_SOURCE_DIR}/${script})
  set_tests_properties(${name} PROPERTIES TIMEOUT 240 SKIP_RETURN_CODE 77 ENVIRONMENT
    "HAMMERLINE=$<TARGET_FILE:hammerline_command>;HAMMERLINE_ROOT=${PROJECT_SOURCE_DIR};HAMMERLINE_BUILD=${PROJECT_BINARY_DIR};HAMMERLINE_PAGES=${PROJECT_BINARY_DIR}/pages")
endfunction()

hammerline_packaging_test(pages pages.sh)
# What is installed is the plain build: other programs don't link sanitizers or counters.
if(NOT HAMMERLINE_SANITIZE AND NOT HAMMERLINE_COVERAGE)
  hammerline_packaging_test(consumer consumer/run.sh)
  hammerline_packaging_test(package package.sh)
  hammerline_packaging_test(source_package source_package.sh)
endif()
