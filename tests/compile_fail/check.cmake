# One forbidden use of the library. The snippet must compile as it stands, and must not compile
# with FORBIDDEN defined; the compiler must then name the line marked "forbidden".
# Arguments: COMPILER, SNIPPET, INCLUDES (a list, separated by "|").

string(REPLACE "|" ";" folders "${INCLUDES}")
list(TRANSFORM folders PREPEND "-I")
set(compile ${COMPILER} -std=c++20 -fsyntax-only -fno-diagnostics-color ${folders})

execute_process(COMMAND ${compile} ${SNIPPET} RESULT_VARIABLE allowed ERROR_VARIABLE said)
if(NOT allowed EQUAL 0)
  message(FATAL_ERROR "The snippet does not compile even without the forbidden line:\n${said}")
endif()

file(STRINGS ${SNIPPET} lines)
list(LENGTH lines count)
set(marked)
set(number 0)
foreach(line IN LISTS lines)
  math(EXPR number "${number} + 1")
  if(line MATCHES "// forbidden$")
    list(APPEND marked ${number})
  endif()
endforeach()
list(LENGTH marked marks)
if(NOT marks EQUAL 1)
  message(FATAL_ERROR "${SNIPPET} must have one line marked \"// forbidden\", it has ${marks}")
endif()

execute_process(COMMAND ${compile} -DFORBIDDEN ${SNIPPET}
                RESULT_VARIABLE forbidden ERROR_VARIABLE said)
if(forbidden EQUAL 0)
  message(FATAL_ERROR "${SNIPPET}:${marked} compiles, and must not")
endif()
get_filename_component(name ${SNIPPET} NAME)
if(NOT said MATCHES "${name}:${marked}:")
  message(FATAL_ERROR "${SNIPPET} fails, but not at line ${marked}:\n${said}")
endif()
