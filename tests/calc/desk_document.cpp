#include "desk_document.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sdbc/DriverManager.hpp>
#include <com/sun/star/sdbc/XConnection.hpp>
#include <com/sun/star/sdbc/XRow.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>

#include "component/desk.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::UNO_QUERY_THROW;

Book plain_desk(const std::string& folder) {
    Book book = calc().new_book(false);
    const Ref<css::beans::XPropertySet> document(book.document(), UNO_QUERY_THROW);
    const Ref<css::sheet::XNamedRanges> names(document->getPropertyValue("NamedRanges"), UNO_QUERY_THROW);
    int column = 0;
    const auto name = [&](const char* what, int last) {
        const std::string letters = column < 26 ? std::string(1, static_cast<char>('A' + column))
                                                : std::string("A") + static_cast<char>('A' + column - 26);
        ++column;
        names->addNewByName(ustring(what),
                            ustring("$Sheet1.$" + letters + "$2:$" + letters + "$" + std::to_string(last)), {}, 0);
    };
    for (const auto* table : {&addin::desk_blocks, &addin::desk_counts, &addin::desk_problems}) {
        for (const char* what : table->columns) name(what, 12);
    }
    for (const char* what : {"folder", "gathered_on", "show_grafters", "database", "database_user"}) name(what, 2);
    book.set_text(book.named("folder"), folder);
    return book;
}

double query(const std::string& file, const std::string& sql) {
    const auto drivers = css::sdbc::DriverManager::create(calc().context());
    const auto connection = drivers->getConnection("sdbc:firebird:" + ustring(file_url(file)));
    const auto statement = connection->createStatement();
    const auto result = statement->executeQuery(ustring(sql));
    double number = -1;
    if (result->next()) number = Ref<css::sdbc::XRow>(result, UNO_QUERY_THROW)->getDouble(1);
    connection->close();
    return number;
}

}  // namespace slipbark::tests
