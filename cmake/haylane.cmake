# Helpers that every folder uses: one library a folder, one test program a folder.

add_library(haylane_options INTERFACE)
target_compile_features(haylane_options INTERFACE cxx_std_20)
# Fused multiply-add off, so that a plan does not depend on the processor.
target_compile_options(haylane_options INTERFACE -ffp-contract=off)
target_include_directories(haylane_options INTERFACE ${PROJECT_SOURCE_DIR})
if(HAYLANE_SANITIZE)
  target_compile_options(haylane_options INTERFACE -fsanitize=${HAYLANE_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=all)
  target_link_options(haylane_options INTERFACE -fsanitize=${HAYLANE_SANITIZE})
endif()
# -fPIC, not -fPIE, because Qt wants it; what is linked with -pie may be either.
if(HAYLANE_HARDEN)
  target_compile_options(haylane_options INTERFACE -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2 -fstack-protector-strong -fPIC)
  target_link_options(haylane_options INTERFACE -pie -Wl,-z,relro,-z,now)
endif()
add_library(haylane_warnings INTERFACE)
# restrict: GCC 12 warns of std::string's own insides at -O3 (GCC bug 105651).
# Designated initialisers leave the other members at their documented defaults on purpose.
target_compile_options(haylane_warnings INTERFACE -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion
  -Wshadow -Wdouble-promotion -Wold-style-cast -Wno-missing-field-initializers
  $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict> $<$<BOOL:${HAYLANE_WERROR}>:-Werror>)

# haylane_library(lines SOURCES a.cpp HEADERS a.h DEPENDS haylane::ground EXTERNAL fmt::fmt)
# makes haylane_lines with the alias haylane::lines. DEPENDS only points upstream.
# HEADERS are checked to compile alone by the target all_verify_interface_header_sets.
function(haylane_library name)
  cmake_parse_arguments(ARG "" "" "SOURCES;HEADERS;DEPENDS;EXTERNAL;PRIVATE" ${ARGN})
  if(ARG_SOURCES)
    add_library(haylane_${name} STATIC ${ARG_SOURCES})
    target_link_libraries(haylane_${name} PUBLIC haylane_options ${ARG_DEPENDS} ${ARG_EXTERNAL}
      PRIVATE haylane_warnings ${ARG_PRIVATE})
    target_sources(haylane_${name} PUBLIC FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR} FILES ${ARG_HEADERS})
  else()
    add_library(haylane_${name} INTERFACE)
    target_link_libraries(haylane_${name} INTERFACE haylane_options ${ARG_DEPENDS} ${ARG_EXTERNAL})
    target_sources(haylane_${name} INTERFACE FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR} FILES ${ARG_HEADERS})
  endif()
  add_library(haylane::${name} ALIAS haylane_${name})
endfunction()

# haylane_test(geometry SOURCES a_test.cpp LIBS haylane::geometry): program test_geometry, one ctest a case.
# WHOLE: one ctest for the program, where cases share something slow. It is begun first, so that the
# others fill the time beside it.
# LONG: many minutes under sanitizers; scripts/test runs it in the release build instead.
function(haylane_test name)
  cmake_parse_arguments(ARG "WHOLE;LONG" "" "SOURCES;LIBS" ${ARGN})
  add_executable(test_${name} ${ARG_SOURCES})
  target_link_libraries(test_${name} PRIVATE haylane_options haylane_warnings ${ARG_LIBS} GTest::gtest GTest::gmock GTest::gtest_main)
  target_compile_definitions(test_${name} PRIVATE
    HAYLANE_SOURCE_DIR="${PROJECT_SOURCE_DIR}" HAYLANE_SHARED_DATA="${HAYLANE_SHARED_DATA}")
  if(ARG_WHOLE)
    add_test(NAME ${name} COMMAND test_${name})
    set_tests_properties(${name} PROPERTIES LABELS ${name} COST 100)
    if(ARG_LONG)
      set_tests_properties(${name} PROPERTIES LABELS "${name};long")
    endif()
    return()
  endif()
  gtest_discover_tests(test_${name} TEST_PREFIX "${name}." DISCOVERY_TIMEOUT 60 PROPERTIES LABELS ${name})
endfunction()
