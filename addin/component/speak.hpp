// Cells and commands speak the language of the office's menus.
#pragma once

#include <com/sun/star/uno/XComponentContext.hpp>

namespace slipbark::addin {

/// Asks the office once, at the first call, which language it shows, and has the catalogue speak it. Without an office
/// (no context) it stays English.
void speak_as_the_office(com::sun::star::uno::XComponentContext* context);

}  // namespace slipbark::addin
