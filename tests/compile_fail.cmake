# cmake -DCXX=<compiler> -DSOURCE=<clone> -DFILE=<file> -P compile_fail.cmake: the file compiles as it stands and
# does not with FL_MISTAKE defined, so that nothing but the mistake keeps it from compiling.
cmake_minimum_required(VERSION 3.25)

set(compile ${CXX} -std=c++20 -fsyntax-only -I${SOURCE})
execute_process(COMMAND ${compile} ${FILE} RESULT_VARIABLE right ERROR_VARIABLE said)
if(NOT right EQUAL 0)
  message(FATAL_ERROR "does not compile even without the mistake:\n${said}")
endif()
execute_process(COMMAND ${compile} -DFL_MISTAKE ${FILE} RESULT_VARIABLE wrong OUTPUT_QUIET ERROR_QUIET)
if(wrong EQUAL 0)
  message(FATAL_ERROR "the mistake compiles")
endif()
