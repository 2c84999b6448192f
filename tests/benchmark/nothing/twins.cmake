# Makes the do-nothing twin of every cell function out of the extension's own generated files: the same interfaces, names
# and signatures under another module and service, and bodies that give a fixed answer of the same type.
#   cmake -DFROM=<generated files of the extension> -DTO=<folder> -P twins.cmake
file(READ ${FROM}/slipbark.idl idl)
string(REPLACE "module slipbark {" "module slipbarknothing {" idl "${idl}")
file(WRITE ${TO}/nothing.idl "${idl}")

file(READ ${FROM}/CalcAddIns.xcu xcu)
string(REPLACE "slipbark.Rework" "slipbark.Nothing" xcu "${xcu}")
string(REPLACE ">REWORK." ">NOTHING." xcu "${xcu}")
file(WRITE ${TO}/Nothing.xcu "${xcu}")

# Once more under another service, whose object is kept bridged as the extension's is.
string(REPLACE "slipbark.Nothing" "slipbark.Kept" xcu "${xcu}")
string(REPLACE ">NOTHING." ">KEPT." xcu "${xcu}")
file(WRITE ${TO}/Kept.xcu "${xcu}")

file(READ ${FROM}/glue.hpp glue)
string(REGEX REPLACE "#include \"[a-z/]+\\.hpp\"\n" "" glue "${glue}")
string(REPLACE "#include <slipbark/" "#include <slipbarknothing/" glue "${glue}")
string(REPLACE "::slipbark::X" "::slipbarknothing::X" glue "${glue}")
string(REPLACE "namespace slipbark::addin" "namespace slipbark::nothing" glue "${glue}")
string(REGEX REPLACE "return call<([A-Za-z:]+)>\\([^\n]*;\n" "return fixed<\\1>();\n" glue "${glue}")
file(WRITE ${TO}/twins.hpp "${glue}")
