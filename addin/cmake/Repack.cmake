# Packs each template in a folder anew, as Pack.cmake does.
#   cmake -DDOCUMENTS=FOLDER -P Repack.cmake
cmake_minimum_required(VERSION 3.25)
file(GLOB_RECURSE documents ${DOCUMENTS}/*.ots)
foreach(ARCHIVE IN LISTS documents)
    set(FOLDER ${DOCUMENTS}.unpacked)
    file(REMOVE_RECURSE ${FOLDER})
    file(ARCHIVE_EXTRACT INPUT ${ARCHIVE} DESTINATION ${FOLDER})
    include(${CMAKE_CURRENT_LIST_DIR}/Pack.cmake)
    file(REMOVE_RECURSE ${FOLDER})
endforeach()
