# cmake -DNM=<nm> -DLIBRARY=<libfl_core.a> -P symbols.cmake: what a grep can't see. A double put through
# std::to_string or a stream follows the locale; either leaves its name in the library.
cmake_minimum_required(VERSION 3.25)

execute_process(COMMAND ${NM} -A ${LIBRARY} OUTPUT_VARIABLE names ERROR_QUIET COMMAND_ERROR_IS_FATAL ANY)
if(NOT names MATCHES "fl_core_table")
  message(FATAL_ERROR "symbols: ${NM} shows no names of ${LIBRARY}")
endif()
# __to_xstring: std::to_string of a double; _M_insert<double>, <long double>, _M_extract<...>: streams.
string(REGEX MATCHALL "[^\n]*(__to_xstring|_M_insertI[de]E|_M_extractI[fde]E)[^\n]*" bad "${names}")
if(bad)
  list(JOIN bad "\n  " text)
  message(FATAL_ERROR "symbols: a number that follows the locale:\n  ${text}")
endif()
