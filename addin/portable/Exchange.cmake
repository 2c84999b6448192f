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

# An office passes over, without a word, a package that is described as another platform's.
string(TOLOWER ${PLATFORM} described)
file(READ ${FOLDER}/description.xml description)
string(REGEX REPLACE "<platform value=\"[^\"]*\"/>" "<platform value=\"${described}\"/>" description "${description}")
file(WRITE ${FOLDER}/description.xml "${description}")

if(NOT PLATFORM MATCHES Windows)
    return()
endif()

# Windows finds the way back from a folder that is not there.
file(READ ${FOLDER}/Paths.xcu paths)
string(REGEX REPLACE "[^\n]*/served/[^\n]*/>\n" "" paths "${paths}")
file(WRITE ${FOLDER}/Paths.xcu "${paths}")
file(REMOVE_RECURSE ${FOLDER}/served)

# Whoever meets it, in the extension manager, in the guide or in the file, is told that it is not tried.
file(GLOB texts ${FOLDER}/description-*.txt)
foreach(text IN LISTS texts)
    string(REGEX REPLACE ".*/description-(.*).txt$" "\\1" language ${text})
    set(untried ${CMAKE_CURRENT_LIST_DIR}/untried-${language}.txt)
    if(NOT EXISTS ${untried})
        set(untried ${CMAKE_CURRENT_LIST_DIR}/untried-en.txt)
    endif()
    file(READ ${untried} said)
    string(STRIP "${said}" said)
    file(READ ${text} about)
    file(WRITE ${text} "${said}\n\n${about}")
    file(APPEND ${FOLDER}/README.txt "${said}\n\n")

    set(guide ${FOLDER}/guide-${language}.html)
    if(language STREQUAL en)
        set(guide ${FOLDER}/guide.html)
    endif()
    string(REPLACE "\n\n" "</p>\n<p>" paragraphs "${said}")
    file(READ ${guide} page)
    string(REPLACE "<body>" "<body>\n<div class=\"caution\"><p>${paragraphs}</p></div>" page "${page}")
    file(WRITE ${guide} "${page}")
endforeach()
