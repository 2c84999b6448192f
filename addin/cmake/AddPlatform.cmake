# Makes of the package in a folder one for a second platform, too: its library in a folder of its own beside the first.
#   cmake -DPACKAGE=FOLDER -DLIBRARY=FILE -DPLATFORM=Linux_AARCH64 -DFOLDER=FOLDER -P AddPlatform.cmake
cmake_minimum_required(VERSION 3.25)
string(TOLOWER ${PLATFORM} platform)
file(REMOVE_RECURSE ${FOLDER})
file(COPY ${PACKAGE}/ DESTINATION ${FOLDER})
file(COPY ${LIBRARY} ${PACKAGE}/slipbark.components DESTINATION ${FOLDER}/${platform})

file(READ ${FOLDER}/META-INF/manifest.xml manifest)
string(REGEX MATCH "[^\n]*\"slipbark.components\"[^\n]*\n" first "${manifest}")
string(REPLACE "slipbark.components" "${platform}/slipbark.components" second "${first}")
string(REGEX REPLACE "platform=[A-Za-z0-9_]+" "platform=${PLATFORM}" second "${second}")
string(REPLACE "${first}" "${first}${second}" manifest "${manifest}")
file(WRITE ${FOLDER}/META-INF/manifest.xml "${manifest}")

file(READ ${FOLDER}/description.xml description)
string(REGEX REPLACE "<platform value=\"([^\"]*)\"/>" "<platform value=\"\\1,${platform}\"/>" description "${description}")
file(WRITE ${FOLDER}/description.xml "${description}")
