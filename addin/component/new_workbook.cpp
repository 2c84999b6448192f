// "New ...": an untitled document from one of the extension's templates.

#include <algorithm>
#include <array>
#include <clocale>
#include <com/sun/star/awt/Size.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/frame/Desktop.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/util/XModifiable.hpp>
#include <rtl/uri.hxx>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/house.hpp"
#include "component/speak.hpp"

namespace slipbark::addin {

namespace {

rtl::OUString in_url(std::string_view name) {
    return rtl::Uri::encode(to_ustring(name), rtl_UriCharClassPchar, rtl_UriEncodeStrict, RTL_TEXTENCODING_UTF8);
}

/// Whether people there print on US Letter and not on A4. The countries are those of Unicode CLDR, supplemental data,
/// measurementData, paperSize US-Letter.
bool prints_on_letter(const css::uno::Reference<css::uno::XComponentContext>& context) {
    std::string locale = language_setting(context, "ooSetupSystemLocale");
    // As the system has it, "en_US.UTF-8", which the office takes over at its start.
    if (const char* const system = std::setlocale(LC_CTYPE, nullptr); locale.empty() && system != nullptr)
        locale = system;
    locale = locale.substr(0, locale.find('.'));
    const std::string country = locale.substr(locale.find_last_of("-_") + 1);
    constexpr std::array<std::string_view, 14> letter{"BZ", "CA", "CL", "CO", "CR", "GT", "MX",
                                                      "NI", "PA", "PH", "PR", "SV", "US", "VE"};
    return std::find(letter.begin(), letter.end(), country) != letter.end();
}

/// The workbooks are laid out for A4. They fit the width of any page, so another paper is only another size.
void print_on_letter(const css::uno::Reference<css::lang::XComponent>& opened) {
    const css::uno::Reference<css::style::XStyleFamiliesSupplier> supplier(opened, css::uno::UNO_QUERY_THROW);
    css::uno::Reference<css::container::XNameAccess> pages;
    supplier->getStyleFamilies()->getByName("PageStyles") >>= pages;
    for (const auto& name : pages->getElementNames()) {
        const css::uno::Reference<css::beans::XPropertySet> page(pages->getByName(name), css::uno::UNO_QUERY_THROW);
        bool wide = false;
        page->getPropertyValue("IsLandscape") >>= wide;
        constexpr sal_Int32 inch = 2540;  // in hundredths of a millimetre
        const css::awt::Size high(17 * inch / 2, 11 * inch);
        page->setPropertyValue("Size", css::uno::Any(wide ? css::awt::Size(high.Height, high.Width) : high));
    }
    css::uno::Reference<css::util::XModifiable>(opened, css::uno::UNO_QUERY_THROW)->setModified(false);
}

/// A new workbook begins with the figures of the house, and is as unchanged as before.
void put_house_in(const Sent& sent, const css::uno::Reference<css::lang::XComponent>& opened) {
    const css::uno::Reference<css::frame::XModel> model(opened, css::uno::UNO_QUERY);
    if (!model.is() || fill_with_house(model, read_house(sent.context)).empty()) return;
    css::uno::Reference<css::util::XModifiable>(opened, css::uno::UNO_QUERY_THROW)->setModified(false);
}

}  // namespace

rtl::OUString template_of(const css::uno::Reference<css::uno::XComponentContext>& context,
                          const workbooks::Listed& workbook) {
    const catalogue::Language& language = catalogue::menu_language();
    return extension_folder(context) + "/" + in_url(catalogue::template_folder(language)) + "/" +
           in_url(language.translated(workbook.category)) + "/" + in_url(workbook.file) + ".ots";
}

Done new_workbook(const Sent& sent) {
    const auto* workbook = workbooks::find(std::string_view(sent.name).substr(new_from.size()));
    if (workbook == nullptr) return no_such_command(sent);
    const rtl::OUString url = template_of(sent.context, *workbook);
    css::beans::PropertyValue as_template;
    as_template.Name = "AsTemplate";
    as_template.Value <<= true;
    const auto opened =
        css::frame::Desktop::create(sent.context)->loadComponentFromURL(url, "_default", 0, {&as_template, 1});
    if (opened.is() && prints_on_letter(sent.context)) print_on_letter(opened);
    if (opened.is()) put_house_in(sent, opened);
    return {.text = to_utf8(url), .worth_a_window = false};
}

}  // namespace slipbark::addin
