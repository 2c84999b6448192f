// "New ...": an untitled document from one of the extension's templates.

#include <com/sun/star/frame/Desktop.hpp>
#include <rtl/uri.hxx>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"

namespace slipbark::addin {

namespace {

rtl::OUString in_url(std::string_view name) {
    return rtl::Uri::encode(to_ustring(name), rtl_UriCharClassPchar, rtl_UriEncodeStrict, RTL_TEXTENCODING_UTF8);
}

}  // namespace

rtl::OUString template_of(const css::uno::Reference<css::uno::XComponentContext>& context,
                          const workbooks::Listed& workbook) {
    const catalogue::Language& language = catalogue::spoken();
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
    css::frame::Desktop::create(sent.context)->loadComponentFromURL(url, "_default", 0, {&as_template, 1});
    return {.text = to_utf8(url), .worth_a_window = false};
}

}  // namespace slipbark::addin
