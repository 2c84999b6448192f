#include "desk_document.hpp"

#include <sys/mount.h>
#include <sys/resource.h>

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sdbc/XConnection.hpp>
#include <com/sun/star/sdbc/XDriver.hpp>
#include <com/sun/star/sdbc/XRow.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <csignal>
#include <stdexcept>

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

namespace {

void limit_files(int process, rlim_t bytes) {
    rlimit limit{};
    if (prlimit(process, RLIMIT_FSIZE, nullptr, &limit) != 0) throw std::runtime_error("no such process");
    limit.rlim_cur = std::min(bytes, limit.rlim_max);
    if (prlimit(process, RLIMIT_FSIZE, &limit, nullptr) != 0) throw std::runtime_error("no limit for files");
}

/// Before any office starts, which then ignores it too.
[[maybe_unused]] const auto ignored = std::signal(SIGXFSZ, SIG_IGN);

}  // namespace

FullDisk::FullDisk(const Office& office, std::uint64_t bytes) : process_(office.process()) {
    limit_files(process_, bytes);
}

FullDisk::~FullDisk() {
    rlimit limit{};
    prlimit(process_, RLIMIT_FSIZE, nullptr, &limit);
    limit.rlim_cur = limit.rlim_max;
    prlimit(process_, RLIMIT_FSIZE, &limit, nullptr);
}

SmallDisk::SmallDisk(std::filesystem::path folder, std::uint64_t bytes) : folder_(std::move(folder)) {
    std::filesystem::create_directories(folder_);
    const std::string size = "size=" + std::to_string(bytes);
    is_there_ = mount("tmpfs", folder_.c_str(), "tmpfs", MS_NOSUID | MS_NODEV, size.c_str()) == 0;
}

SmallDisk::~SmallDisk() {
    if (is_there_) umount2(folder_.c_str(), MNT_DETACH);
}

double query(const std::string& file, const std::string& sql) {
    // Never let go: the end of a driver ends Firebird for the whole office.
    static const auto* const driver =
        new Ref<css::sdbc::XDriver>(calc().create("com.sun.star.comp.sdbc.firebird.Driver"), UNO_QUERY_THROW);
    const auto connection = (*driver)->connect("sdbc:firebird:" + ustring(file_url(file)), {});
    const auto statement = connection->createStatement();
    const auto result = statement->executeQuery(ustring(sql));
    double number = -1;
    if (result->next()) number = Ref<css::sdbc::XRow>(result, UNO_QUERY_THROW)->getDouble(1);
    connection->close();
    return number;
}

}  // namespace slipbark::tests
