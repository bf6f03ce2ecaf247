# cmake -DBUILD=<build folder> -P second_build.cmake: configuring and building again, as app/run does, starts
# nothing when nothing has changed.
cmake_minimum_required(VERSION 3.25)

foreach(turn first second)
  execute_process(COMMAND ${CMAKE_COMMAND} ${BUILD} OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
  execute_process(COMMAND ${CMAKE_COMMAND} --build ${BUILD} OUTPUT_VARIABLE said COMMAND_ERROR_IS_FATAL ANY)
endforeach()
string(REGEX MATCHALL "\n?\\[[0-9]+/[0-9]+\\] (Building|Linking|Generating)[^\n]*" started "${said}")
list(LENGTH started count)
if(count GREATER 0 OR NOT said MATCHES "ninja: no work to do")
  message(FATAL_ERROR "the second build started ${count} commands:\n${said}")
endif()
message(STATUS "the second build started ${count} commands")
