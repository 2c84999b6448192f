# The workbooks: every folder below examples/ that has a book.tsv. Sets SLIPBARK_BOOKS, their names in the order of the
# menu, and writes build/addin/composer/workbooks.def, from which menu, package, commands and tests take them.
set(examples ${PROJECT_SOURCE_DIR}/examples)
file(GLOB books CONFIGURE_DEPENDS ${examples}/*/book.tsv)
set(ordered)
foreach(book IN LISTS books)
    set_property(DIRECTORY ${PROJECT_SOURCE_DIR} APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${book})
    cmake_path(GET book PARENT_PATH folder)
    cmake_path(GET folder FILENAME name)
    foreach(word order menu category)
        file(STRINGS ${book} line REGEX "^${word}\t" LIMIT_COUNT 1)
        if(NOT line)
            message(FATAL_ERROR "${book} lacks its ${word}")
        endif()
        string(REGEX REPLACE "^${word}\t" "" ${name}_${word} "${line}")
    endforeach()
    list(APPEND ordered "${${name}_order} ${name}")
endforeach()
list(SORT ordered COMPARE NATURAL)
set(SLIPBARK_BOOKS)
set(lines "// Made from examples/*/book.tsv. No include guard: included wherever a list is made of it.\n")
foreach(one IN LISTS ordered)
    string(REGEX REPLACE "^.* " "" name "${one}")
    list(APPEND SLIPBARK_BOOKS ${name})
    string(APPEND lines
        "SLIPBARK_WORKBOOK(\"${name}\", translatable(\"${${name}_menu}\"), translatable(\"${${name}_category}\"))\n")
endforeach()
file(CONFIGURE OUTPUT ${PROJECT_BINARY_DIR}/addin/composer/workbooks.def CONTENT "${lines}" @ONLY)
# For what includes composer/registry.hpp.
# For the tests too, whose folders see no variable of this one.
set_property(GLOBAL PROPERTY SLIPBARK_BOOKS ${SLIPBARK_BOOKS})
add_library(slipbark_registry INTERFACE)
target_include_directories(slipbark_registry INTERFACE ${PROJECT_BINARY_DIR}/addin)

# The files that one workbook is made of.
#   slipbark_book_texts(NAME VARIABLE)
function(slipbark_book_texts name variable)
    file(GLOB texts CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/examples/${name}/*.tsv
        ${PROJECT_SOURCE_DIR}/examples/${name}/*.svg)
    file(GLOB shared CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/examples/*.tsv)
    set(${variable} ${texts} ${shared} PARENT_SCOPE)
endfunction()

# Composes all workbooks into a folder; VARIABLE becomes the list of their files. Further arguments: --language TAG MO.
#   slipbark_compose_books(FOLDER VARIABLE [--language TAG MO])
function(slipbark_compose_books folder variable)
    set(messages)
    if(ARGC GREATER 4)
        set(messages ${ARGV4})
    endif()
    file(MAKE_DIRECTORY ${folder})
    set(made)
    get_property(books GLOBAL PROPERTY SLIPBARK_BOOKS)
    foreach(book IN LISTS books)
        slipbark_book_texts(${book} texts)
        add_custom_command(
            OUTPUT ${folder}/${book}.fods
            COMMAND slipbark_compose ${ARGN} examples/${book} ${folder}/${book}.fods
            WORKING_DIRECTORY ${PROJECT_SOURCE_DIR}
            DEPENDS slipbark_compose ${texts} ${messages}
            COMMENT "Composing ${book} ${ARGV3}"
            VERBATIM)
        list(APPEND made ${folder}/${book}.fods)
    endforeach()
    set(${variable} ${made} PARENT_SCOPE)
endfunction()
