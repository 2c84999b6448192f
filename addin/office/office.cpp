#include "office/office.hpp"

#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <boost/algorithm/string/replace.hpp>
#include <chrono>
#include <com/sun/star/bridge/UnoUrlResolver.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/container/XNameContainer.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/frame/Desktop.hpp>
#include <com/sun/star/frame/DispatchHelper.hpp>
#include <com/sun/star/frame/XController.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/script/XLibraryContainer.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <com/sun/star/text/XText.hpp>
#include <com/sun/star/util/Date.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <cppuhelper/bootstrap.hxx>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <mutex>
#include <osl/file.hxx>
#include <stdexcept>
#include <thread>

#include "catalogue/formula.hpp"

namespace slipbark::office {

namespace {

using css::uno::Any;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;

/// The client's own UNO runtime, without an office behind it.
Ref<css::uno::XComponentContext> client_context() {
    static const Ref<css::uno::XComponentContext> context = [] {
        const std::string rc = std::string("vnd.sun.star.pathname:") + SLIPBARK_OFFICE_PROGRAM + "/fundamentalrc";
        setenv("URE_BOOTSTRAP", rc.c_str(), 1);
        return cppu::defaultBootstrap_InitialComponentContext();
    }();
    return context;
}

std::filesystem::path fresh_folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "slipbark-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("cannot make a folder for a profile");
    return pattern;
}

/// What the office ends with when it wants to be started again, as after taking up an extension.
constexpr int restart_wanted = 81;

/// How long an office may take to answer: its first start on a cold and busy machine is slow.
constexpr std::chrono::seconds patience{180};

std::string content(const std::filesystem::path& path) {
    std::ifstream in(path);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// The code a process ended with; -1 while it runs.
int ended(int process) {
    int status = 0;
    if (waitpid(process, &status, WNOHANG) == 0) return -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128;
}

int spawn(std::vector<std::string>& words, const std::filesystem::path& log) {
    std::vector<char*> pointers;
    pointers.reserve(words.size() + 1);
    for (auto& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    const std::string log_name = log.string();
    const int process = fork();
    if (process < 0) throw std::runtime_error("cannot start " + words[0]);
    if (process == 0) {
        // An office must not outlive the program it was started for, however that ends.
        prctl(PR_SET_PDEATHSIG, SIGKILL);
        const int file = open(log_name.c_str(), O_CREAT | O_WRONLY | O_APPEND | O_CLOEXEC, 0600);
        dup2(file, STDOUT_FILENO);
        dup2(file, STDERR_FILENO);
        execv(pointers[0], pointers.data());
        _exit(127);
    }
    return process;
}

constexpr const char* settings_file = "user/registrymodifications.xcu";

std::string item(const std::string& path, const std::string& name, const std::string& value) {
    return R"(<item oor:path=")" + path + R"("><prop oor:name=")" + name + R"(" oor:op="fuse"><value>)" + value +
           "</value></prop></item>\n";
}

/// Settings of a user who has had the office before. At its first start a version tries what the machine can draw,
/// which takes five seconds of the processor; without a window it never notes that it did, and tries again at each
/// start.
void write_settings(const std::filesystem::path& profile, const std::string& items) {
    std::filesystem::create_directories(profile / "user");
    std::ofstream(profile / settings_file)
        << "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<oor:items xmlns:oor=\"http://openoffice.org/2001/registry\" "
           "xmlns:xs=\"http://www.w3.org/2001/XMLSchema\" xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\">\n"
        << items << item("/org.openoffice.Setup/Product", "ooSetupLastVersion", "99.9") << "</oor:items>\n";
}

}  // namespace

rtl::OUString ustring(std::string_view text) {
    return {text.data(), static_cast<sal_Int32>(text.size()), RTL_TEXTENCODING_UTF8};
}

std::string utf8(const rtl::OUString& text) {
    const auto bytes = rtl::OUStringToOString(text, RTL_TEXTENCODING_UTF8);
    return {bytes.getStr(), static_cast<std::size_t>(bytes.getLength())};
}

std::string file_url(const std::filesystem::path& path) {
    const rtl::OUString name = ustring(std::filesystem::absolute(path).string());
    rtl::OUString url;
    if (osl::FileBase::getFileURLFromSystemPath(name, url) != osl::FileBase::E_None) {
        throw std::invalid_argument(path.string() + " is no path");
    }
    return utf8(url);
}

css::beans::PropertyValue property(const char* name, const Any& value) {
    css::beans::PropertyValue made;
    made.Name = rtl::OUString::createFromAscii(name);
    made.Value = value;
    return made;
}

css::uno::Sequence<css::beans::PropertyValue> properties(std::initializer_list<css::beans::PropertyValue> all) {
    return {all.begin(), static_cast<sal_Int32>(all.size())};
}

css::uno::Sequence<css::beans::PropertyValue> silent() { return properties({property("Silent", Any(true))}); }

void make_profile(const std::filesystem::path& profile, const Settings& settings) {
    std::string items;
    if (!settings.locale.empty()) items += item("/org.openoffice.Setup/L10N", "ooSetupSystemLocale", settings.locale);
    if (!settings.language.empty()) {
        items += item("/org.openoffice.Office.Linguistic/General", "UILocale", settings.language);
    }
    // Medium: asks about every macro. At the level that is usual, newer offices leave them out without asking.
    items += item("/org.openoffice.Office.Common/Security/Scripting", "MacroSecurityLevel", "1");
    const std::string syntax = "/org.openoffice.Office.Calc/Formula/Syntax";
    if (settings.semicolons) {
        items += item(syntax, "SeparatorArg", ";");
        items += item(syntax, "SeparatorArrayCol", ";");
        items += item(syntax, "SeparatorArrayRow", "|");
    }
    items += item(syntax, "EnglishFunctionName", settings.english_names ? "true" : "false");
    write_settings(profile, items);
}

Book::Book(const Ref<css::lang::XComponent>& component) : component_(component), document_(component_, UNO_QUERY) {
    if (!document_.is()) throw std::runtime_error("not a spreadsheet");
}

Book::Book(Book&& other) noexcept : component_(other.component_), document_(other.document_) {
    other.component_.clear();
    other.document_.clear();
}

Book::~Book() {
    try {
        if (const Ref<css::util::XCloseable> closeable{component_, UNO_QUERY}; closeable.is()) closeable->close(true);
    } catch (const css::uno::Exception&) {
        // The office may be gone already (a test that kills it): nothing is left to close.
    }
}

std::vector<std::string> Book::sheets() const {
    std::vector<std::string> names;
    for (const auto& name : document_->getSheets()->getElementNames()) names.push_back(utf8(name));
    return names;
}

Ref<css::table::XCellRange> Book::range(const std::string& address) const {
    const auto dot = address.find('.');
    Ref<css::table::XCellRange> sheet;
    if (dot == std::string::npos) {
        const Ref<css::container::XIndexAccess> all(document_->getSheets(), UNO_QUERY_THROW);
        all->getByIndex(0) >>= sheet;
    } else {
        document_->getSheets()->getByName(ustring(address.substr(0, dot))) >>= sheet;
    }
    if (!sheet.is()) throw std::runtime_error("no sheet for " + address);
    return sheet->getCellRangeByName(ustring(dot == std::string::npos ? address : address.substr(dot + 1)));
}

Ref<css::table::XCell> Book::cell(const std::string& address) const { return range(address)->getCellByPosition(0, 0); }

std::string Book::named(const std::string& name) const {
    const Ref<css::beans::XPropertySet> set(document_, UNO_QUERY_THROW);
    Ref<css::container::XNameAccess> names;
    set->getPropertyValue("NamedRanges") >>= names;
    const Ref<css::sheet::XCellRangeReferrer> referrer(names->getByName(ustring(name)), UNO_QUERY_THROW);
    const Ref<css::sheet::XCellRangeAddressable> range(referrer->getReferredCells(), UNO_QUERY_THROW);
    const auto address = range->getRangeAddress();
    const Ref<css::container::XIndexAccess> all(document_->getSheets(), UNO_QUERY_THROW);
    const Ref<css::container::XNamed> sheet(all->getByIndex(address.Sheet), UNO_QUERY_THROW);
    std::string letters;
    for (auto column = address.StartColumn; column >= 0; column = column / 26 - 1) {
        letters.insert(letters.begin(), static_cast<char>('A' + column % 26));
    }
    return utf8(sheet->getName()) + "." + letters + std::to_string(address.StartRow + 1);
}

void Book::set(const std::string& address, double value) const { cell(address)->setValue(value); }

void Book::set_text(const std::string& address, const std::string& text) const {
    const Ref<css::text::XText> content(cell(address), UNO_QUERY_THROW);
    content->setString(ustring(text));
}

rtl::OUString written_out(const std::string& formula) { return ustring(catalogue::with_service(formula)); }

void Book::set_formula(const std::string& address, const std::string& formula) const {
    cell(address)->setFormula(written_out(formula));
}

void Book::set_array(const std::string& address, const std::string& formula) const {
    const Ref<css::sheet::XArrayFormulaRange> array(range(address), UNO_QUERY_THROW);
    array->setArrayFormula(written_out(formula));
}

Shown Book::shown(const std::string& address) const {
    const auto one = cell(address);
    const Ref<css::beans::XPropertySet> set(one, UNO_QUERY_THROW);
    const Ref<css::text::XText> content(one, UNO_QUERY_THROW);
    sal_Int32 type = 0;
    set->getPropertyValue("FormulaResultType2") >>= type;
    return {static_cast<int>(one->getError()), one->getValue(), utf8(content->getString()),
            type == css::sheet::FormulaResult::STRING};
}

std::string Book::formula(const std::string& address) const { return utf8(cell(address)->getFormula()); }

Shown Book::calculate(const std::string& formula) const {
    constexpr const char* spare = "AMJ1";
    set_formula(spare, formula);
    return shown(spare);
}

void Book::set_null_date(int year, int month, int day) const {
    const Ref<css::beans::XPropertySet> set(document_, UNO_QUERY_THROW);
    set->setPropertyValue("NullDate", Any(css::util::Date(static_cast<sal_uInt16>(day), static_cast<sal_uInt16>(month),
                                                          static_cast<sal_Int16>(year))));
}

void Book::recalculate() const {
    const Ref<css::sheet::XCalculatable> calculatable(document_, UNO_QUERY_THROW);
    calculatable->calculateAll();
}

void Book::save_as(const std::filesystem::path& path, const std::string& filter) const {
    const Ref<css::frame::XStorable> storable(document_, UNO_QUERY_THROW);
    const auto how = properties({property("FilterName", Any(ustring(filter))), property("Overwrite", Any(true))});
    storable->storeToURL(ustring(file_url(path)), how);
}

void Book::add_macro(const std::string& module, const std::string& source) const {
    const Ref<css::beans::XPropertySet> set(document_, UNO_QUERY_THROW);
    const Ref<css::script::XLibraryContainer> libraries(set->getPropertyValue("BasicLibraries"), UNO_QUERY_THROW);
    if (!libraries->hasByName("Standard")) libraries->createLibrary("Standard");
    const Ref<css::container::XNameContainer> library(libraries->getByName("Standard"), UNO_QUERY_THROW);
    library->insertByName(ustring(module), Any(ustring(source)));
}

std::vector<std::string> Book::errors() const {
    std::vector<std::string> found;
    const Ref<css::container::XIndexAccess> all(document_->getSheets(), UNO_QUERY_THROW);
    for (sal_Int32 index = 0; index < all->getCount(); ++index) {
        const Ref<css::sheet::XCellRangesQuery> sheet(all->getByIndex(index), UNO_QUERY_THROW);
        const Ref<css::container::XNamed> named(sheet, UNO_QUERY_THROW);
        const auto wrong = sheet->queryFormulaCells(css::sheet::FormulaResult::ERROR);
        const auto cells = wrong->getCells()->createEnumeration();
        while (cells->hasMoreElements()) {
            const Ref<css::table::XCell> one(cells->nextElement(), UNO_QUERY_THROW);
            const Ref<css::sheet::XCellAddressable> addressable(one, UNO_QUERY_THROW);
            const auto address = addressable->getCellAddress();
            const Ref<css::text::XText> content(one, UNO_QUERY_THROW);
            found.push_back(utf8(named->getName()) + " column " + std::to_string(address.Column + 1) + " row " +
                            std::to_string(address.Row + 1) + " " + utf8(content->getString()) + " " +
                            utf8(one->getFormula()));
        }
    }
    return found;
}

Office::Office(Start start) : start_(std::move(start)) {
    profile_ = start_.profile.empty() ? fresh_folder() : start_.profile;
    if (!std::filesystem::exists(profile_ / settings_file)) write_settings(profile_, {});
    static int count = 0;
    const std::string pipe = "slipbark" + std::to_string(getpid()) + "_" + std::to_string(count++);
    // The program itself and not its start script, so that it is one process of ours.
    std::vector<std::string> words{(start_.program / "soffice.bin").string(), "--nologo", "--nodefault",
                                   "--accept=pipe,name=" + pipe + ";urp;",
                                   "-env:UserInstallation=" + file_url(profile_)};
    if (!start_.recover) words.emplace_back("--norestore");
    if (start_.headless) words.emplace_back("--headless");
    if (!start_.bundled.empty()) words.push_back("-env:BUNDLED_EXTENSIONS=" + file_url(start_.bundled));
    words.insert(words.end(), start_.words.begin(), start_.words.end());
    process_ = spawn(words, profile_ / "office.log");

    const auto resolver = css::bridge::UnoUrlResolver::create(client_context());
    const auto url = ustring("uno:pipe,name=" + pipe + ";urp;StarOffice.ComponentContext");
    const auto deadline = std::chrono::steady_clock::now() + patience;
    while (!context_.is()) {
        try {
            context_.set(resolver->resolve(url), UNO_QUERY);
        } catch (const css::uno::Exception&) {
            const int code = ended(process_);
            if (code == restart_wanted) {
                process_ = spawn(words, profile_ / "office.log");
            } else if (code >= 0 || std::chrono::steady_clock::now() > deadline) {
                const std::string said = content(profile_ / "office.log");
                if (code >= 0) process_ = -1;
                stop();
                throw std::runtime_error(
                    words[0] +
                    (code >= 0 ? " ended with " + std::to_string(code) : std::string(" did not answer in time")) +
                    (said.empty() ? "" : ", saying: " + said));
            }
            std::this_thread::sleep_for(std::chrono::milliseconds(50));
        }
    }
}

Ref<css::uno::XInterface> Office::create(const char* service) const {
    return context_->getServiceManager()->createInstanceWithContext(rtl::OUString::createFromAscii(service), context_);
}

Ref<css::frame::XDesktop2> Office::desktop() const { return css::frame::Desktop::create(context_); }

Book Office::open_url(const std::string& url, bool as_template, bool hidden) const {
    const auto how = properties({property("Hidden", Any(hidden)), property("AsTemplate", Any(as_template)),
                                 property("MacroExecutionMode", Any(css::document::MacroExecMode::NEVER_EXECUTE))});
    const auto component = desktop()->loadComponentFromURL(ustring(url), "_blank", 0, how);
    if (!component.is()) throw std::runtime_error("cannot open " + url);
    return Book(component);
}

css::uno::Any Office::dispatch(const Book& book, const std::string& command,
                               const css::uno::Sequence<css::beans::PropertyValue>& with) const {
    const Ref<css::frame::XModel> model(book.document(), UNO_QUERY_THROW);
    const Ref<css::frame::XDispatchProvider> frame(model->getCurrentController()->getFrame(), UNO_QUERY_THROW);
    return css::frame::DispatchHelper::create(context_)->executeDispatch(frame, ustring(command), "", 0, with);
}

Book Office::new_book(bool hidden) const { return open_url("private:factory/scalc", false, hidden); }

Book Office::open(const std::filesystem::path& path, bool hidden) const {
    return open_url(file_url(path), false, hidden);
}

void Office::stop() {
    if (process_ >= 0) end_process();
    context_.clear();
    if (start_.profile.empty()) {
        std::error_code ignored;
        std::filesystem::remove_all(profile_, ignored);
    }
}

void Office::end_process() {
    try {
        if (context_.is()) desktop()->terminate();
    } catch (const css::uno::Exception&) {
        // The connection breaks while the office ends; whether it ended is seen below.
    }
    context_.clear();
    const auto deadline = std::chrono::steady_clock::now() + std::chrono::seconds(15);
    while (ended(process_) < 0) {
        if (std::chrono::steady_clock::now() > deadline) {
            kill(process_, SIGKILL);
            waitpid(process_, nullptr, 0);
            break;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
    process_ = -1;
}

Office::~Office() {
    try {
        stop();
    } catch (const std::exception&) {
        // Nothing more can be done for a process that cannot be ended.
    }
}

}  // namespace slipbark::office
