# The extension itself: needs the office's SDK (Debian: libreoffice-dev).
set(SLIPBARK_OFFICE /usr/lib/libreoffice CACHE PATH "Where the office is installed")
set(SLIPBARK_SDK ${SLIPBARK_OFFICE}/sdk CACHE PATH "Where its SDK is installed")
find_path(SLIPBARK_SDK_INCLUDE sal/types.h
    PATHS ${SLIPBARK_SDK}/include /usr/include/libreoffice NO_DEFAULT_PATH REQUIRED)
find_program(SLIPBARK_UNOIDL_WRITE unoidl-write PATHS ${SLIPBARK_SDK}/bin NO_DEFAULT_PATH REQUIRED)
find_program(SLIPBARK_CPPUMAKER cppumaker PATHS ${SLIPBARK_SDK}/bin NO_DEFAULT_PATH REQUIRED)

set(office_program ${SLIPBARK_OFFICE}/program)
set(ure_types ${office_program}/types.rdb)
set(office_types ${office_program}/types/offapi.rdb)

# C++ headers of the office's own types, once per build tree. cppumaker wants absolute paths and an existing folder.
set(office_headers ${CMAKE_CURRENT_BINARY_DIR}/office_headers)
file(MAKE_DIRECTORY ${office_headers})
add_custom_command(
    OUTPUT ${office_headers}/stamp
    COMMAND ${SLIPBARK_CPPUMAKER} -Gc -O${office_headers} ${ure_types} ${office_types}
    COMMAND ${CMAKE_COMMAND} -E touch ${office_headers}/stamp
    DEPENDS ${ure_types} ${office_types}
    COMMENT "Making headers of the office's types"
    VERBATIM)
add_custom_target(slipbark_office_headers DEPENDS ${office_headers}/stamp)

add_library(slipbark_office INTERFACE)
target_include_directories(slipbark_office SYSTEM INTERFACE ${office_headers} ${SLIPBARK_SDK_INCLUDE})
target_compile_definitions(slipbark_office INTERFACE UNX LINUX CPPU_ENV=gcc3)
target_link_directories(slipbark_office INTERFACE ${office_program})
target_link_libraries(slipbark_office INTERFACE
    ${office_program}/libuno_sal.so.3
    ${office_program}/libuno_cppu.so.3
    ${office_program}/libuno_cppuhelpergcc3.so.3)

# Our own types: IDL -> rdb -> headers.
set(own_headers ${CMAKE_CURRENT_BINARY_DIR}/own_headers)
set(own_types ${CMAKE_CURRENT_BINARY_DIR}/slipbark.rdb)
file(MAKE_DIRECTORY ${own_headers})
add_custom_command(
    OUTPUT ${own_types} ${own_headers}/stamp
    COMMAND ${SLIPBARK_UNOIDL_WRITE} ${ure_types} ${office_types} ${generated}/slipbark.idl ${own_types}
    COMMAND ${SLIPBARK_CPPUMAKER} -O${own_headers} -X${ure_types} -X${office_types} ${own_types}
    COMMAND ${CMAKE_COMMAND} -E touch ${own_headers}/stamp
    DEPENDS ${generated}/slipbark.idl
    COMMENT "Making headers of the extension's interfaces"
    VERBATIM)
add_custom_target(slipbark_own_headers DEPENDS ${own_headers}/stamp)

add_library(slipbark_component OBJECT commands.cpp component.cpp)
add_dependencies(slipbark_component slipbark_office_headers slipbark_own_headers slipbark_generated)
target_include_directories(slipbark_component PUBLIC ${CMAKE_CURRENT_SOURCE_DIR})
target_include_directories(slipbark_component SYSTEM PUBLIC ${own_headers})
target_include_directories(slipbark_component PUBLIC ${generated})
target_link_libraries(slipbark_component PUBLIC slipbark::catalogue slipbark_office PRIVATE slipbark_warnings)

add_library(slipbark MODULE)
target_link_libraries(slipbark PRIVATE slipbark_component)
# The office that loads it has these libraries already; a path of this machine must not ship.
set_target_properties(slipbark PROPERTIES BUILD_WITH_INSTALL_RPATH ON INSTALL_RPATH "")
target_link_options(slipbark PRIVATE -Wl,--no-undefined -Wl,-z,relro,-z,now,-z,noexecstack -Wl,--exclude-libs,ALL)

add_subdirectory(office)

# The package, in three steps: the extension without its templates; the templates, made by an office that has that
# extension; both together, as a folder that can be used as it is (a bundled extension) and the same zipped.
configure_file(package/description.xml.in ${CMAKE_CURRENT_BINARY_DIR}/package/description.xml @ONLY)
configure_file(package/manifest.xml.in ${CMAKE_CURRENT_BINARY_DIR}/package/manifest.xml @ONLY)
set(package_files
    ${CMAKE_CURRENT_BINARY_DIR}/package/description.xml
    ${CMAKE_CURRENT_SOURCE_DIR}/package/Addons.xcu
    ${CMAKE_CURRENT_SOURCE_DIR}/package/Paths.xcu
    ${CMAKE_CURRENT_SOURCE_DIR}/package/ProtocolHandler.xcu
    ${CMAKE_CURRENT_SOURCE_DIR}/package/description.txt
    ${CMAKE_CURRENT_SOURCE_DIR}/package/icon.png
    ${CMAKE_CURRENT_SOURCE_DIR}/package/slipbark.components
    ${PROJECT_SOURCE_DIR}/LICENSE
    ${generated}/CalcAddIns.xcu
    ${generated}/guide.html
    ${own_types})

set(stage ${CMAKE_CURRENT_BINARY_DIR}/stage/slipbark)
add_custom_command(
    OUTPUT ${CMAKE_CURRENT_BINARY_DIR}/stage/stamp
    COMMAND ${CMAKE_COMMAND} -E rm -rf ${stage}
    COMMAND ${CMAKE_COMMAND} -E make_directory ${stage}/META-INF
    COMMAND ${CMAKE_COMMAND} -E copy ${CMAKE_CURRENT_BINARY_DIR}/package/manifest.xml ${stage}/META-INF/manifest.xml
    COMMAND ${CMAKE_COMMAND} -E copy ${package_files} ${stage}
    COMMAND ${CMAKE_STRIP} -o ${stage}/libslipbark.so $<TARGET_FILE:slipbark>
    COMMAND ${CMAKE_COMMAND} -E touch ${CMAKE_CURRENT_BINARY_DIR}/stage/stamp
    DEPENDS slipbark ${package_files} ${CMAKE_CURRENT_BINARY_DIR}/package/manifest.xml
    COMMENT "Staging the extension"
    VERBATIM)

file(GLOB workbooks CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/examples/*.fods)
set(templates ${CMAKE_CURRENT_BINARY_DIR}/templates)
add_custom_command(
    OUTPUT ${templates}/stamp
    COMMAND ${CMAKE_COMMAND} -E rm -rf ${templates}
    COMMAND ${CMAKE_COMMAND} -E make_directory ${templates}
    COMMAND slipbark_make_templates ${CMAKE_CURRENT_BINARY_DIR}/stage ${templates} ${workbooks}
    COMMAND ${CMAKE_COMMAND} -E touch ${templates}/stamp
    DEPENDS slipbark_make_templates ${CMAKE_CURRENT_BINARY_DIR}/stage/stamp ${workbooks}
    COMMENT "Making the templates from examples/*.fods"
    VERBATIM)

set(package ${PROJECT_BINARY_DIR}/bundled/slipbark)
set(oxt ${PROJECT_BINARY_DIR}/slipbark.oxt)
add_custom_command(
    OUTPUT ${oxt}
    COMMAND ${CMAKE_COMMAND} -E rm -rf ${package} ${oxt}
    COMMAND ${CMAKE_COMMAND} -E copy_directory ${stage} ${package}
    COMMAND ${CMAKE_COMMAND} -E copy_directory ${templates} "${package}/template/Rework plans"
    COMMAND ${CMAKE_COMMAND} -E rm "${package}/template/Rework plans/stamp"
    COMMAND ${CMAKE_COMMAND} -E chdir ${package} ${CMAKE_COMMAND} -E tar cf ${oxt} --format=zip .
    DEPENDS ${CMAKE_CURRENT_BINARY_DIR}/stage/stamp ${templates}/stamp
    COMMENT "Packing slipbark.oxt"
    VERBATIM)
add_custom_target(slipbark_package ALL DEPENDS ${oxt})
