cmake_minimum_required(VERSION 3.25)
# Builds the package once more, from nothing, and compares.
#   cmake -DSOURCE=... -DPACKAGE=... -DAGAIN=FOLDER -P again.cmake
file(REMOVE_RECURSE ${AGAIN})
foreach(step "--preset;release;-B;${AGAIN}" "--build;${AGAIN};--target;slipbark_package")
    execute_process(COMMAND ${CMAKE_COMMAND} ${step} WORKING_DIRECTORY ${SOURCE} OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
endforeach()
file(SHA256 ${PACKAGE} first)
file(SHA256 ${AGAIN}/slipbark.oxt again)
message("${first} ${PACKAGE}\n${again} ${AGAIN}/slipbark.oxt")
if(NOT first STREQUAL again)
    message(FATAL_ERROR "Two builds differ.")
endif()
