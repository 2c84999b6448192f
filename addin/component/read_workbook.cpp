#include "component/read_workbook.hpp"

#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/io/XInputStream.hpp>
#include <com/sun/star/lang/WrappedTargetException.hpp>
#include <com/sun/star/packages/zip/ZipFileAccess.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/xml/sax/Parser.hpp>
#include <com/sun/star/xml/sax/SAXParseException.hpp>
#include <com/sun/star/xml/sax/XDocumentHandler.hpp>
#include <cppuhelper/implbase1.hxx>
#include <stdexcept>

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
    explicit Unreadable(Message why) : std::runtime_error(why.english()), reason(std::move(why)) {}
    Message reason;
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
            {translatable("It has a password: save it without one, or take its figures over by hand."), {}});
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

/// Who has the file open, by the lock file that the office puts beside it; empty where nobody has.
std::string open_at(const Reference<css::ucb::XSimpleFileAccess3>& files, const rtl::OUString& url) {
    const sal_Int32 slash = url.lastIndexOf('/');
    const rtl::OUString lock = url.copy(0, slash + 1) + ".~lock." + url.copy(slash + 1) + "%23";
    if (!files->exists(lock)) return {};
    css::uno::Sequence<sal_Int8> bytes;
    const auto stream = files->openFileRead(lock);
    stream->readBytes(bytes, 4096);
    stream->closeInput();
    // name,system user,machine,time,profile;
    const std::string text(reinterpret_cast<const char*>(bytes.getConstArray()),
                           static_cast<std::size_t>(bytes.getLength()));
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
        throw Unreadable({translatable("It is empty (0 bytes): the copy went wrong. Ask for the file again."), {}});
    }
    if (const std::string who = open_at(files, url); !who.empty()) {
        throw Unreadable({translatable("It is open ({1}): gather again once it is saved and closed."), {who}});
    }
    css::uno::Sequence<sal_Int8> start;
    const auto stream = files->openFileRead(url);
    stream->readBytes(start, 65536);
    stream->closeInput();
    const std::string_view bytes(reinterpret_cast<const char*>(start.getConstArray()),
                                 static_cast<std::size_t>(start.getLength()));
    if (bytes.starts_with("PK")) return;
    if (bytes.starts_with("\xD0\xCF\x11\xE0")) {
        // What Excel writes with a password: a compound file with this stream, its name in UTF-16.
        constexpr std::string_view name("E\0n\0c\0r\0y\0p\0t\0e\0d\0", 18);
        if (bytes.find(name) != std::string_view::npos) {
            throw Unreadable(
                {translatable("It has a password: save it without one, or take its figures over by hand."), {}});
        }
    }
    throw Unreadable({translatable("It is no workbook in .ods or .xlsx, whatever its name says."), {}});
}

}  // namespace

std::variant<WorkbookCells, Message> read_workbook(const Reference<css::uno::XComponentContext>& context,
                                                   const rtl::OUString& url) {
    try {
        check(css::ucb::SimpleFileAccess::create(context), url);
        const Package package(context, url);
        if (package.has("content.xml")) return read_ods(package);
        if (package.has("xl/workbook.xml")) return read_xlsx(package);
        return Message{translatable("It is no workbook in .ods or .xlsx, whatever its name says."), {}};
    } catch (const Unreadable& why) {
        return why.reason;
    } catch (const css::uno::RuntimeException&) {
        throw;
    } catch (const css::uno::Exception& why) {
        return Message{translatable("It is damaged or cannot be opened ({1}). Ask for the file again."),
                       {to_utf8(why.Message)}};
    }
}

}  // namespace slipbark::addin
