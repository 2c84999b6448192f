#include "component/read_workbook.hpp"

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/document/UpdateDocMode.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/io/TempFile.hpp>
#include <com/sun/star/io/XInputStream.hpp>
#include <com/sun/star/lang/DisposedException.hpp>
#include <com/sun/star/lang/WrappedTargetException.hpp>
#include <com/sun/star/packages/zip/ZipFileAccess.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/xml/sax/Parser.hpp>
#include <com/sun/star/xml/sax/SAXParseException.hpp>
#include <com/sun/star/xml/sax/XDocumentHandler.hpp>
#include <cppuhelper/implbase1.hxx>
#include <stdexcept>

#include "component/documents.hpp"
#include "composer/document.hpp"
#include "gather/harvest.hpp"
#include "gather/ods_parts.hpp"
#include "gather/xlsx_parts.hpp"

namespace slipbark::addin {

using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;
using gather::WorkbookCells;

namespace {

/// A reason that people read.
struct Unreadable : std::runtime_error {
    explicit Unreadable(Message why, bool by_the_office_too = false)
        : std::runtime_error(why.english()), reason(std::move(why)), for_good(by_the_office_too) {}
    Message reason;
    bool for_good;  ///< the office could not read it either, or must not
};

/// Passes the office's events on.
class Handler final : public cppu::WeakImplHelper1<css::xml::sax::XDocumentHandler> {
  public:
    explicit Handler(gather::XmlEvents& events) : events_(events) {}

    void SAL_CALL startDocument() override {}
    void SAL_CALL endDocument() override {}
    void SAL_CALL startElement(const rtl::OUString& name,
                               const Reference<css::xml::sax::XAttributeList>& attributes) override {
        // A book of 50,000 trees has some 2 million; a file made to choke its reader has more.
        constexpr std::int64_t most_elements = 20'000'000;
        if (++elements_ > most_elements) {
            throw css::xml::sax::SAXException("too many elements", static_cast<cppu::OWeakObject*>(this), {});
        }
        attributes_.resize(static_cast<std::size_t>(attributes->getLength()));
        for (std::size_t at = 0; at < attributes_.size(); ++at) {
            const auto index = static_cast<sal_Int16>(at);
            attributes_[at] = {to_utf8(attributes->getNameByIndex(index)), to_utf8(attributes->getValueByIndex(index))};
        }
        events_.start(to_utf8(name), attributes_);
    }
    void SAL_CALL endElement(const rtl::OUString& name) override { events_.end(to_utf8(name)); }
    void SAL_CALL characters(const rtl::OUString& text) override { events_.text(to_utf8(text)); }
    void SAL_CALL ignorableWhitespace(const rtl::OUString& /*text*/) override {}
    void SAL_CALL processingInstruction(const rtl::OUString& /*target*/, const rtl::OUString& /*data*/) override {}
    void SAL_CALL setDocumentLocator(const Reference<css::xml::sax::XLocator>& /*locator*/) override {}

  private:
    gather::XmlEvents& events_;
    std::vector<gather::XmlAttribute> attributes_;
    std::int64_t elements_ = 0;
};

class Package {
  public:
    Package(const Reference<css::uno::XComponentContext>& context, const rtl::OUString& url)
        : context_(context), parts_(css::packages::zip::ZipFileAccess::createWithURL(context, url), UNO_QUERY_THROW) {}

    [[nodiscard]] bool has(const std::string& part) const { return parts_->hasByName(to_ustring(part)); }

    void read(const std::string& part, gather::XmlEvents& events) const {
        const Reference<css::io::XInputStream> stream(parts_->getByName(to_ustring(part)), UNO_QUERY_THROW);
        const auto parser = css::xml::sax::Parser::create(context_);
        parser->setDocumentHandler(new Handler(events));
        css::xml::sax::InputSource source;
        source.aInputStream = stream;
        try {
            parser->parseStream(source);
        } catch (const css::xml::sax::SAXParseException& broken) {
            throw Unreadable({translatable("It is damaged: {1} breaks off in line {2}. Ask for the file again."),
                              {part, static_cast<double>(broken.LineNumber)}});
        }
    }

  private:
    Reference<css::uno::XComponentContext> context_;
    Reference<css::container::XNameAccess> parts_;
};

WorkbookCells read_ods(const Package& package) {
    WorkbookCells cells;
    gather::OdsManifest manifest;
    if (package.has("META-INF/manifest.xml")) package.read("META-INF/manifest.xml", manifest);
    if (manifest.encrypted()) {
        throw Unreadable(
            {translatable("It has a password: save it without one, or take its figures over by hand."), {}}, true);
    }
    gather::OdsMeta meta(cells);
    if (package.has("meta.xml")) package.read("meta.xml", meta);
    gather::OdsContent content(cells);
    package.read("content.xml", content);
    return cells;
}

WorkbookCells read_xlsx(const Package& package) {
    WorkbookCells cells;
    gather::XlsxProperties properties(cells);
    if (package.has("docProps/custom.xml")) package.read("docProps/custom.xml", properties);
    gather::XlsxWorkbook workbook(cells);
    package.read("xl/workbook.xml", workbook);
    gather::XlsxRelations relations;
    package.read("xl/_rels/workbook.xml.rels", relations);
    gather::XlsxStrings strings;
    if (package.has("xl/sharedStrings.xml")) package.read("xl/sharedStrings.xml", strings);
    for (const auto& sheet : workbook.sheets()) {
        const std::string part = relations.part(sheet.relation);
        if (part.empty() || !package.has(part)) continue;  // a sheet that is all chart
        gather::XlsxSheet reader(cells.sheets[sheet.name], strings.texts());
        package.read(part, reader);
    }
    return cells;
}

/// The first bytes of a file, at most so many.
std::string start_of(const Reference<css::ucb::XSimpleFileAccess3>& files, const rtl::OUString& url, sal_Int32 most) {
    css::uno::Sequence<sal_Int8> bytes;
    const auto stream = files->openFileRead(url);
    stream->readBytes(bytes, most);
    stream->closeInput();
    return {reinterpret_cast<const char*>(bytes.getConstArray()), static_cast<std::size_t>(bytes.getLength())};
}

/// Who has the file open, by the lock file that the office puts beside it; empty where nobody has.
std::string open_at(const Reference<css::ucb::XSimpleFileAccess3>& files, const rtl::OUString& url) {
    const sal_Int32 slash = url.lastIndexOf('/');
    const rtl::OUString lock = url.copy(0, slash + 1) + ".~lock." + url.copy(slash + 1) + "%23";
    if (!files->exists(lock)) return {};
    // name,system user,machine,time,profile;
    const std::string text = start_of(files, lock, 4096);
    std::size_t from = 0;
    for (int field = 0; field < 3; ++field) {
        const auto comma = text.find(',', from);
        std::string name = text.substr(from, comma == std::string::npos ? comma : comma - from);
        if (!name.empty()) return name;
        if (comma == std::string::npos) break;
        from = comma + 1;
    }
    return "?";
}

/// What can be said of a file before it is opened.
void check(const Reference<css::ucb::XSimpleFileAccess3>& files, const rtl::OUString& url) {
    if (files->getSize(url) == 0) {
        throw Unreadable({translatable("It is empty (0 bytes): the copy went wrong. Ask for the file again."), {}},
                         true);
    }
    if (const std::string who = open_at(files, url); !who.empty()) {
        throw Unreadable({translatable("It is open ({1}): gather again once it is saved and closed."), {who}}, true);
    }
    const std::string bytes = start_of(files, url, 65536);
    if (bytes.starts_with("PK")) return;
    if (bytes.starts_with("\xD0\xCF\x11\xE0")) {
        // What Excel writes with a password: a compound file with this stream, its name in UTF-16.
        constexpr std::string_view name("E\0n\0c\0r\0y\0p\0t\0e\0d\0", 18);
        if (bytes.find(name) != std::string_view::npos) {
            throw Unreadable(
                {translatable("It has a password: save it without one, or take its figures over by hand."), {}}, true);
        }
    }
    throw Unreadable({translatable("It is no workbook in .ods or .xlsx, whatever its name says."), {}});
}

/// By what filter the office could read a file that is no package of ours to read; null where it is to leave it alone,
/// since it takes a web page for a spreadsheet, too, and fetches what that links to.
const char* filter_of(const Reference<css::ucb::XSimpleFileAccess3>& files, const rtl::OUString& url) {
    const std::string start = start_of(files, url, 4096);
    if (start.starts_with("\xD0\xCF\x11\xE0")) return "MS Excel 97";
    if (start.find("urn:oasis:names:tc:opendocument:xmlns:office:1.0") != std::string::npos) {
        return "OpenDocument Spreadsheet Flat XML";
    }
    if (!start.starts_with("PK")) return nullptr;
    return url.endsWithIgnoreAsciiCase(".ods") ? "calc8" : "Calc MS Excel 2007 XML";
}

/// What the office itself reads of a file, out of sight, read-only, without macros and links; nothing where it is no
/// workbook of ours. It takes eight times as long as the reader.
std::optional<WorkbookCells> loaded(const Reference<css::uno::XComponentContext>& context, const rtl::OUString& url) {
    using css::uno::Any;
    const char* const filter = filter_of(css::ucb::SimpleFileAccess::create(context), url);
    if (filter == nullptr) return {};
    try {
        const HiddenDocument document(
            context, url,
            {property("FilterName", Any(rtl::OUString::createFromAscii(filter))), property("ReadOnly", Any(true)),
             property("MacroExecutionMode", Any(css::document::MacroExecMode::NEVER_EXECUTE)),
             property("UpdateDocMode", Any(css::document::UpdateDocMode::NO_UPDATE))});
        const Reference<css::frame::XStorable> storable(document.model(), UNO_QUERY);
        if (!storable.is()) return {};
        const auto file = css::io::TempFile::create(context);
        const css::beans::PropertyValue as_ods = property("FilterName", Any(rtl::OUString("calc8")));
        storable->storeToURL(file->getUri(), {&as_ods, 1});
        WorkbookCells cells = read_ods(Package(context, file->getUri()));
        if (!gather::kind_of(cells, std::string(workbooks::workbook_property))) return {};
        return cells;
    } catch (const css::lang::DisposedException&) {
        throw;
    } catch (const css::uno::Exception&) {
        return {};  // the reader has said why
    }
}

/// Throws Unreadable.
WorkbookCells read_file(const Reference<css::uno::XComponentContext>& context, const rtl::OUString& url) {
    try {
        check(css::ucb::SimpleFileAccess::create(context), url);
        const Package package(context, url);
        if (package.has("content.xml")) return read_ods(package);
        if (package.has("xl/workbook.xml")) {
            WorkbookCells cells = read_xlsx(package);
            if (!cells.sheets.empty()) return cells;
        }
    } catch (const css::uno::RuntimeException&) {
        throw;
    } catch (const css::uno::Exception& why) {
        throw Unreadable(
            {translatable("It is damaged or cannot be opened ({1}). Ask for the file again."), {to_utf8(why.Message)}});
    }
    throw Unreadable({translatable("It is no workbook in .ods or .xlsx, whatever its name says."), {}});
}

}  // namespace

std::variant<WorkbookCells, Message> read_workbook(const Reference<css::uno::XComponentContext>& context,
                                                   const rtl::OUString& url) {
    try {
        return read_file(context, url);
    } catch (const Unreadable& why) {
        if (!why.for_good) {
            if (auto cells = loaded(context, url)) return *std::move(cells);
        }
        return why.reason;
    }
}

}  // namespace slipbark::addin
