# The manual page passes mandoc's lint without a remark, and reads as one page.
# Arguments: PROGRAM (skeinfall), WORK (scratch folder).
set(page ${WORK}/skeinfall.1)
execute_process(COMMAND ${PROGRAM} man OUTPUT_FILE ${page} COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND mandoc -T lint ${page} RESULT_VARIABLE code OUTPUT_VARIABLE remarks
  ERROR_VARIABLE remarks)
if(NOT code EQUAL 0 OR NOT remarks STREQUAL "")
  message(FATAL_ERROR "mandoc's lint (${code}):\n${remarks}")
endif()
execute_process(COMMAND mandoc -T ascii ${page} OUTPUT_VARIABLE text COMMAND_ERROR_IS_FATAL ANY)
string(ASCII 8 backspace)
string(REGEX REPLACE ".${backspace}" "" text "${text}")
foreach(part NAME SYNOPSIS "skeinfall cover" "EXIT STATUS")
  if(NOT text MATCHES "${part}")
    message(FATAL_ERROR "the page does not show \"${part}\":\n${text}")
  endif()
endforeach()
