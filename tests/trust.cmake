# Fault runs, confinement, fuzzing, locales: what must hold in strange hands.
option(HAMMERLINE_LONG_TESTS "Leave nothing out in the fault runs (some hours)" OFF)
option(HAMMERLINE_FUZZ "Build the fuzzers (needs clang)" OFF)
if(HAMMERLINE_LONG_TESTS)
  set(long_environment ";HAMMERLINE_LONG=1")
  set_tests_properties(test_memory_audit PROPERTIES ENVIRONMENT "HAMMERLINE_LONG=1" TIMEOUT 7200)
endif()
