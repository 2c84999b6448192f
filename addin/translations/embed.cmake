# Writes SOURCE with the .mo files of CATALOGUES as bytes, for languages.cpp, which says how they are laid out.
set(index "")
set(all "")
foreach(file IN LISTS CATALOGUES)
    get_filename_component(tag ${file} NAME_WLE)
    file(SIZE ${file} size)
    string(APPEND index "${tag} ${size}\\n")
    file(READ ${file} bytes HEX)
    # 32 bytes a line; each step one pass, since a loop would copy all of them at each turn.
    string(REPEAT "[0-9a-f]" 64 line)
    string(REGEX REPLACE "(${line})" "\\1\n" bytes "${bytes}")
    string(REGEX REPLACE "([0-9a-f][0-9a-f])" "\\\\x\\1" bytes "${bytes}")
    string(REGEX REPLACE "([^\n]+)\n?" "\n    \"\\1\"" lines "${bytes}")
    string(APPEND all "${lines}")
endforeach()
file(WRITE ${SOURCE} "// Written by addin/translations/embed.cmake.

// The standard asks compilers for texts of 65,536 letters; GCC and clang take any length.
#pragma GCC diagnostic ignored \"-Woverlength-strings\"

namespace slipbark::catalogue {

extern const char catalogues[];

__attribute__((section(\"slipbark_languages\"))) const char catalogues[] = \"${index}\\n\"${all};

}  // namespace slipbark::catalogue
")
