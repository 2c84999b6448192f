# Puts one language, TAG with its messages MO, in the place of those built into LIBRARY, as the copy MADE.
# addin/translations/languages.cpp says how they are laid out.
cmake_minimum_required(VERSION 3.25)
file(SIZE ${MO} size)
file(WRITE ${BLOCK}.index "${TAG} ${size}\n\n")
execute_process(COMMAND ${CMAKE_COMMAND} -E cat ${BLOCK}.index ${MO} OUTPUT_FILE ${BLOCK} COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND ${OBJCOPY} --update-section slipbark_languages=${BLOCK} ${LIBRARY} ${MADE} COMMAND_ERROR_IS_FATAL ANY)
