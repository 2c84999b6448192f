# Writes SOURCE: slipbark::catalogue::languages() with the .mo files of CATALOGUES as bytes.
set(arrays "")
set(entries "Language()")
foreach(file IN LISTS CATALOGUES)
    get_filename_component(tag ${file} NAME_WLE)
    string(MAKE_C_IDENTIFIER "${tag}" name)
    file(READ ${file} bytes HEX)
    # 32 bytes a line; each step one pass, since a loop would copy all of them at each turn.
    string(REPEAT "[0-9a-f]" 64 line)
    string(REGEX REPLACE "(${line})" "\\1\n" bytes "${bytes}")
    string(REGEX REPLACE "([0-9a-f][0-9a-f])" "\\\\x\\1" bytes "${bytes}")
    string(REGEX REPLACE "([^\n]+)\n?" "\n    \"\\1\"" lines "${bytes}")
    string(APPEND arrays "constexpr char messages_${name}[] ={LINES};\n\n")
    string(REPLACE "={LINES}" " =${lines}" arrays "${arrays}")
    string(APPEND entries ", Language(\"${tag}\", {messages_${name}, sizeof messages_${name} - 1})")
endforeach()
file(WRITE ${SOURCE} "// Written by addin/translations/embed.cmake.
#include \"catalogue/language.hpp\"

// The standard asks compilers for texts of 65,536 letters; GCC and clang take any length.
#pragma GCC diagnostic ignored \"-Woverlength-strings\"

namespace slipbark::catalogue {

namespace {

${arrays}}  // namespace

const std::vector<Language>& languages() {
    static const std::vector<Language> all{${entries}};
    return all;
}

}  // namespace slipbark::catalogue
")
