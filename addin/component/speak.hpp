// Cells and commands speak the language of the office's menus.
#pragma once

#include <com/sun/star/uno/XComponentContext.hpp>
#include <string>

namespace slipbark::addin {

/// A tag of the office's Setup/L10N. ooLocale is the language that the office shows, "en-US": it is set at each start
/// from the user's setting, the system's and those that are installed. ooSetupSystemLocale is the locale that the user
/// has chosen; empty where it is the system's.
std::string language_setting(const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context,
                             const char* name);

/// Asks the office once, at the first call, which language it shows, and has the catalogue speak it. Without an office
/// (no context) it stays English.
void speak_as_the_office(com::sun::star::uno::XComponentContext* context);

}  // namespace slipbark::addin
