# Makes of the package in a folder one with the portable component: its library in the other one's place, the menu and
# its commands left out.
#   cmake -DPACKAGE=FOLDER -DLIBRARY=FILE -DPLATFORM=Linux_x86_64 -DFOLDER=FOLDER -P Exchange.cmake
cmake_minimum_required(VERSION 3.25)
file(REMOVE_RECURSE ${FOLDER})
file(COPY ${PACKAGE}/ DESTINATION ${FOLDER})
file(REMOVE ${FOLDER}/libslipbark.so ${FOLDER}/Addons.xcu ${FOLDER}/ProtocolHandler.xcu)
file(COPY ${LIBRARY} DESTINATION ${FOLDER})
get_filename_component(library ${LIBRARY} NAME)
configure_file(${CMAKE_CURRENT_LIST_DIR}/slipbark.components.in ${FOLDER}/slipbark.components @ONLY)

file(READ ${FOLDER}/META-INF/manifest.xml manifest)
string(REGEX REPLACE "[^\n]*\"(Addons|ProtocolHandler).xcu\"[^\n]*\n" "" manifest "${manifest}")
string(REGEX REPLACE "platform=[A-Za-z0-9_]+" "platform=${PLATFORM}" manifest "${manifest}")
file(WRITE ${FOLDER}/META-INF/manifest.xml "${manifest}")
