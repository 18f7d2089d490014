# cmake -DBUILD=... -DSOURCE=... -DCXX=... -DFLAGS=... -P installed_library.cmake
# Installs the library into BUILD, builds examples/library against it as a stranger would, and runs it.
set(prefix "${BUILD}/installed_library/prefix")
set(user "${BUILD}/installed_library/user")
file(REMOVE_RECURSE "${BUILD}/installed_library")

function(run)
  execute_process(COMMAND ${ARGV} RESULT_VARIABLE code OUTPUT_VARIABLE said ERROR_VARIABLE said)
  if(NOT code EQUAL 0)
    message(FATAL_ERROR "${ARGV} ended with ${code}:\n${said}")
  endif()
endfunction()

run("${CMAKE_COMMAND}" --install "${BUILD}" --prefix "${prefix}")
run("${CMAKE_COMMAND}" -S "${SOURCE}/examples/library" -B "${user}" -DCMAKE_PREFIX_PATH=${prefix}
    -DCMAKE_CXX_COMPILER=${CXX} -DCMAKE_CXX_FLAGS=${FLAGS})
run("${CMAKE_COMMAND}" --build "${user}")
execute_process(
  COMMAND "${user}/carries" "${SOURCE}/examples/ledger-hung-raised-deck/survey.json"
  RESULT_VARIABLE code OUTPUT_VARIABLE said ERROR_VARIABLE said
)
if(NOT code EQUAL 1 OR NOT said MATCHES "does not carry")
  message(FATAL_ERROR "the example ended with ${code}:\n${said}")
endif()
