// A headless Calc of our own to talk to: started over a pipe with a throw-away profile, never the user's, and ended
// with the object. Used by the tests in real Calc and by examples/run.
#pragma once

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/frame/XDesktop2.hpp>
#include <com/sun/star/lang/XMultiComponentFactory.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/table/XCellRange.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <filesystem>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace slipbark::office {

namespace css = com::sun::star;
template <class T>
using Ref = css::uno::Reference<T>;

rtl::OUString ustring(std::string_view text);
std::string utf8(const rtl::OUString& text);
/// A formula with the service before the names of our functions, as the office's API wants it.
rtl::OUString written_out(const std::string& formula);
std::string file_url(const std::filesystem::path& path);
css::beans::PropertyValue property(const char* name, const css::uno::Any& value);
css::uno::Sequence<css::beans::PropertyValue> properties(std::initializer_list<css::beans::PropertyValue> all);
/// With it a command of the extension opens no window of its own and gives its words back.
css::uno::Sequence<css::beans::PropertyValue> silent();

/// How an office is started.
struct Start {
    std::filesystem::path bundled;   ///< folder of unpacked extensions; none where empty
    std::filesystem::path profile;   ///< kept after the end where given; a fresh one, removed at the end, where empty
    std::vector<std::string> words;  ///< further words of the command line
    std::filesystem::path program = SLIPBARK_OFFICE_PROGRAM;
    bool headless = true;
    bool recover = false;  ///< offers what a crash left in the profile, which a headless office never does
};

/// What a user has set in Tools > Options; as the host has it where nothing is said.
struct Settings {
    std::string locale;         ///< as "de-DE"; the machine's own where empty
    std::string language = {};  ///< of the menus; the machine's own where empty
    bool english_names = false;
    bool semicolons = false;  ///< separators of what is typed as in the examples, whatever the locale has
};

/// A new profile of a user with these settings.
void make_profile(const std::filesystem::path& profile, const Settings& settings);

/// What a cell shows.
struct Shown {
    int error = 0;  ///< the host's code: 502 bad argument, 32767 #N/A, 0 none
    double number = 0;
    std::string text;
    bool is_text = false;
};

/// One open spreadsheet. Closed with the object.
class Book {
  public:
    explicit Book(const Ref<css::lang::XComponent>& component);
    Book(const Book&) = delete;
    Book& operator=(const Book&) = delete;
    /// Leaves `other` with nothing to close: the references of the SDK copy when they are moved.
    Book(Book&& other) noexcept;
    Book& operator=(Book&&) = delete;
    ~Book();

    [[nodiscard]] const Ref<css::sheet::XSpreadsheetDocument>& document() const { return document_; }
    [[nodiscard]] std::vector<std::string> sheets() const;
    /// "B4" or "B4:C9" on the first sheet, "Plan.B4" on another.
    [[nodiscard]] Ref<css::table::XCellRange> range(const std::string& address) const;
    [[nodiscard]] Ref<css::table::XCell> cell(const std::string& address) const;
    /// The address of a named range, for use where an address is wanted.
    [[nodiscard]] std::string named(const std::string& name) const;

    void set(const std::string& address, double value) const;
    void set_text(const std::string& address, const std::string& text) const;
    /// A formula in the grammar of files: REWORK.X is written out as SLIPBARK.REWORK.X.
    void set_formula(const std::string& address, const std::string& formula) const;
    void set_array(const std::string& address, const std::string& formula) const;
    [[nodiscard]] Shown shown(const std::string& address) const;
    [[nodiscard]] std::string formula(const std::string& address) const;
    /// Calculates one formula in a spare cell of the first sheet.
    [[nodiscard]] Shown calculate(const std::string& formula) const;
    /// Sets what day 0 is, as Tools > Options > Calc > Calculate does.
    void set_null_date(int year, int month, int day) const;
    /// Calculates every cell again, as Ctrl+Shift+F9 does.
    void recalculate() const;
    void save_as(const std::filesystem::path& path, const std::string& filter) const;
    /// Puts a module in Basic into the document.
    void add_macro(const std::string& module, const std::string& source) const;
    /// Every cell that shows an error, as "Sheet.B4 Err:502 =FORMULA".
    [[nodiscard]] std::vector<std::string> errors() const;

  private:
    Ref<css::lang::XComponent> component_;
    Ref<css::sheet::XSpreadsheetDocument> document_;
};

class Office {
  public:
    /// Starts and connects; throws where the office ends or does not answer within three minutes.
    explicit Office(Start start);
    Office(const Office&) = delete;
    Office& operator=(const Office&) = delete;
    ~Office();

    [[nodiscard]] const Ref<css::uno::XComponentContext>& context() const { return context_; }
    [[nodiscard]] Ref<css::uno::XInterface> create(const char* service) const;
    [[nodiscard]] Ref<css::frame::XDesktop2> desktop() const;
    [[nodiscard]] Book new_book(bool hidden = true) const;
    [[nodiscard]] Book open(const std::filesystem::path& path, bool hidden = true) const;
    /// A new untitled document with the file's content: leaves the file alone, even where somebody has it open.
    [[nodiscard]] Book copy_of(const std::filesystem::path& path) const { return open_url(file_url(path), true); }
    [[nodiscard]] Book open_url(const std::string& url, bool as_template = false, bool hidden = true) const;
    /// Does what a menu or a key does, in the window that shows the book. Gives what the command gives back.
    css::uno::Any dispatch(const Book& book, const std::string& command,
                           const css::uno::Sequence<css::beans::PropertyValue>& with = {}) const;
    /// Ends the office in good order; the destructor does it too, and kills what does not end.
    void stop();
    [[nodiscard]] int process() const { return process_; }
    [[nodiscard]] const std::filesystem::path& profile() const { return profile_; }

  private:
    void end_process();

    Start start_;
    std::filesystem::path profile_;
    int process_ = -1;
    Ref<css::uno::XComponentContext> context_;
};

}  // namespace slipbark::office
