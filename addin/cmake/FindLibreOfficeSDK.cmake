# Finds the office and its SDK (Debian: libreoffice-dev).
#
#   LibreOfficeSDK::uno      the UNO libraries with headers of the office's own types, made by cppumaker once per build
#                            tree; link it and the headers are there before anything is compiled
#   libreoffice_interfaces(TARGET IDL RDB HEADERS)
#                            own types: IDL -> RDB -> headers in the folder HEADERS, as the custom target TARGET
#   SLIPBARK_OFFICE          cache: where the office is installed
#   LibreOfficeSDK_PROGRAM   its program folder
#   SLIPBARK_OFFICE_LIBRARIES  cache: where its libraries are, for another platform than this machine's
include(FindPackageHandleStandardArgs)

set(SLIPBARK_OFFICE /usr/lib/libreoffice CACHE PATH "Where the office is installed")
set(SLIPBARK_SDK ${SLIPBARK_OFFICE}/sdk CACHE PATH "Where its SDK is installed")
set(LibreOfficeSDK_PROGRAM ${SLIPBARK_OFFICE}/program)
set(SLIPBARK_OFFICE_LIBRARIES ${LibreOfficeSDK_PROGRAM} CACHE PATH "Where the office's libraries are for the platform built for")
find_path(LibreOfficeSDK_INCLUDE sal/types.h PATHS ${SLIPBARK_SDK}/include /usr/include/libreoffice NO_DEFAULT_PATH)
find_program(LibreOfficeSDK_UNOIDL_WRITE unoidl-write PATHS ${SLIPBARK_SDK}/bin NO_DEFAULT_PATH)
find_program(LibreOfficeSDK_CPPUMAKER cppumaker PATHS ${SLIPBARK_SDK}/bin NO_DEFAULT_PATH)
find_package_handle_standard_args(LibreOfficeSDK
    REQUIRED_VARS LibreOfficeSDK_INCLUDE LibreOfficeSDK_UNOIDL_WRITE LibreOfficeSDK_CPPUMAKER)

if(LibreOfficeSDK_FOUND AND NOT TARGET LibreOfficeSDK::uno)
    set(LibreOfficeSDK_TYPES ${LibreOfficeSDK_PROGRAM}/types.rdb ${LibreOfficeSDK_PROGRAM}/types/offapi.rdb)

    # cppumaker wants absolute paths and an existing folder.
    set(LibreOfficeSDK_HEADERS ${CMAKE_CURRENT_BINARY_DIR}/office_headers)
    file(MAKE_DIRECTORY ${LibreOfficeSDK_HEADERS})
    add_custom_command(
        OUTPUT ${LibreOfficeSDK_HEADERS}/stamp
        COMMAND ${LibreOfficeSDK_CPPUMAKER} -Gc -O${LibreOfficeSDK_HEADERS} ${LibreOfficeSDK_TYPES}
        COMMAND ${CMAKE_COMMAND} -E touch ${LibreOfficeSDK_HEADERS}/stamp
        DEPENDS ${LibreOfficeSDK_TYPES}
        COMMENT "Making headers of the office's types"
        VERBATIM)
    add_custom_target(slipbark_office_headers DEPENDS ${LibreOfficeSDK_HEADERS}/stamp)

    add_library(LibreOfficeSDK::uno INTERFACE IMPORTED GLOBAL)
    add_dependencies(LibreOfficeSDK::uno slipbark_office_headers)
    target_include_directories(LibreOfficeSDK::uno SYSTEM INTERFACE
        ${LibreOfficeSDK_HEADERS} ${LibreOfficeSDK_INCLUDE})
    target_compile_definitions(LibreOfficeSDK::uno INTERFACE UNX LINUX CPPU_ENV=gcc3)
    target_link_directories(LibreOfficeSDK::uno INTERFACE ${SLIPBARK_OFFICE_LIBRARIES})
    target_link_libraries(LibreOfficeSDK::uno INTERFACE
        ${SLIPBARK_OFFICE_LIBRARIES}/libuno_sal.so.3
        ${SLIPBARK_OFFICE_LIBRARIES}/libuno_cppu.so.3
        ${SLIPBARK_OFFICE_LIBRARIES}/libuno_cppuhelpergcc3.so.3)

    function(libreoffice_interfaces target idl rdb headers)
        file(MAKE_DIRECTORY ${headers})
        list(TRANSFORM LibreOfficeSDK_TYPES PREPEND -X OUTPUT_VARIABLE known)
        add_custom_command(
            OUTPUT ${rdb} ${headers}/stamp
            COMMAND ${LibreOfficeSDK_UNOIDL_WRITE} ${LibreOfficeSDK_TYPES} ${idl} ${rdb}
            COMMAND ${LibreOfficeSDK_CPPUMAKER} -O${headers} ${known} ${rdb}
            COMMAND ${CMAKE_COMMAND} -E touch ${headers}/stamp
            DEPENDS ${idl}
            COMMENT "Making headers of the extension's interfaces"
            VERBATIM)
        add_custom_target(${target} DEPENDS ${rdb} ${headers}/stamp)
    endfunction()
endif()
