#include "component/speak.hpp"

#include <com/sun/star/beans/NamedValue.hpp>
#include <com/sun/star/configuration/theDefaultProvider.hpp>
#include <com/sun/star/container/XNameAccess.hpp>

#include "catalogue/language.hpp"
#include "component/convert.hpp"

namespace slipbark::addin {

using css::uno::Reference;
using css::uno::UNO_QUERY_THROW;

std::string language_setting(const Reference<css::uno::XComponentContext>& context, const char* name) {
    const auto provider = css::configuration::theDefaultProvider::get(context);
    const css::uno::Any path(
        css::beans::NamedValue("nodepath", css::uno::Any(rtl::OUString("/org.openoffice.Setup/L10N"))));
    const Reference<css::container::XNameAccess> settings(
        provider->createInstanceWithArguments("com.sun.star.configuration.ConfigurationAccess", {&path, 1}),
        UNO_QUERY_THROW);
    rtl::OUString tag;
    settings->getByName(rtl::OUString::createFromAscii(name)) >>= tag;
    return to_utf8(tag);
}

namespace {

const catalogue::Language& language_of_the_office(const Reference<css::uno::XComponentContext>& context) {
    if (!context.is()) return catalogue::menu_language();
    try {
        return catalogue::language_for(language_setting(context, "ooLocale"));
    } catch (const css::uno::Exception&) {
        return catalogue::menu_language();  // an office that does not say is no reason to leave cells without functions
    }
}

}  // namespace

void speak_as_the_office(css::uno::XComponentContext* context) {
    static const bool once = [&] {
        catalogue::speak(language_of_the_office(context));
        return true;
    }();
    static_cast<void>(once);
}

}  // namespace slipbark::addin
