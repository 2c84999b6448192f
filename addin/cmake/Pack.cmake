# Packs a folder so that the same files give the same bytes, whenever and wherever: sorted entries, one time for all of
# them (SOURCE_DATE_EPOCH, or the first day that a zip file knows), no owners, plain modes.
#   cmake -DFOLDER=... -DARCHIVE=... -P Pack.cmake
cmake_minimum_required(VERSION 3.25)
set(ENV{TZ} UTC)
if(NOT DEFINED ENV{SOURCE_DATE_EPOCH})
    set(ENV{SOURCE_DATE_EPOCH} 315532800)  # 1 January 1980
endif()

file(GLOB_RECURSE files RELATIVE ${FOLDER} ${FOLDER}/*)
list(SORT files)

file(REMOVE ${ARCHIVE})
function(in_folder)
    execute_process(COMMAND ${ARGV} WORKING_DIRECTORY ${FOLDER} COMMAND_ERROR_IS_FATAL ANY)
endfunction()
in_folder(touch -d @$ENV{SOURCE_DATE_EPOCH} ${files})
in_folder(chmod 644 ${files})
in_folder(zip -q -X -9 ${ARCHIVE} ${files})
# The same entries, deflated with more patience.
in_folder(advzip -q -z -2 ${ARCHIVE})
