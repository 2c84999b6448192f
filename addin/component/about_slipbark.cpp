// "About Slipbark": its version and licence.

#include "catalogue/support.hpp"
#include "component/command.hpp"

namespace slipbark::addin {

Done about_slipbark(const Sent& /*sent*/) {
    return {catalogue::menu_language().translated(
        translatable(
            "Slipbark {1}\nCell functions and workbooks for reworking fruit trees.\nMozilla Public License 2.0"),
        {catalogue::version()})};
}

}  // namespace slipbark::addin
