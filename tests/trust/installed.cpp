// What a user of this machine has of Slipbark, without any setting of theirs: one line each for tests/trust/deb.
//   slipbark_installed PROFILE DOCUMENT    DOCUMENT is made where it is not there yet

#include <com/sun/star/beans/NamedValue.hpp>
#include <com/sun/star/configuration/theDefaultProvider.hpp>
#include <com/sun/star/container/XHierarchicalNameAccess.hpp>
#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <iostream>

#include "office/office.hpp"

namespace {

using namespace slipbark::office;
using css::uno::Any;

std::string menu(const Office& office) {
    try {
        const Any node(
            css::beans::NamedValue("nodepath", Any(ustring("/org.openoffice.Office.Addons/AddonUI/OfficeMenuBar"))));
        const Ref<css::container::XHierarchicalNameAccess> found(
            css::configuration::theDefaultProvider::get(office.context())
                ->createInstanceWithArguments("com.sun.star.configuration.ConfigurationAccess", {&node, 1}),
            css::uno::UNO_QUERY_THROW);
        rtl::OUString title;
        found->getByHierarchicalName("slipbark.menu/Title") >>= title;
        return utf8(title);
    } catch (const css::container::NoSuchElementException&) {
        return "none";
    }
}

/// How many templates the package brings for the office's own list, which shows its folder "template".
sal_Int32 templates(const Office& office) {
    const auto folder =
        css::deployment::PackageInformationProvider::get(office.context())->getPackageLocation("slipbark.rework");
    if (folder.isEmpty()) return 0;
    const auto files = css::ucb::SimpleFileAccess::create(office.context());
    return files->getFolderContents(folder + "/template/Rework%20plans", false).getLength();
}

}  // namespace

int main(int count, char** words) {
    if (count != 3) return 2;
    try {
        const Office office({.bundled = {}, .profile = words[1], .words = {}});
        std::cout << "menu: " << menu(office) << "\ntemplates: " << templates(office) << "\n";
        const std::filesystem::path document = words[2];
        if (!std::filesystem::exists(document)) {
            const Book book = office.new_book();
            book.set_formula("A1", "=REWORK.STICKS(3200;2;9;0.15)");
            book.save_as(document, "calc8");
        }
        const Book book = office.open(document);
        book.recalculate();
        std::cout << "document: " << book.shown("A1").text << "\n";
    } catch (const css::uno::Exception& error) {
        std::cerr << utf8(error.Message) << "\n";
        return 1;
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
        return 1;
    }
}
