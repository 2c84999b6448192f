// "Gather workbooks": the tables of the adviser's desk from every plan, log and book of records in a folder.
//
// Files are read and never loaded. What cannot be read is listed with the reason, and what an earlier gathering took
// from it stays. Gathering again fills the tables anew, so nothing stands in them twice.

#include <algorithm>
#include <cmath>
#include <com/sun/star/awt/Key.hpp>
#include <com/sun/star/awt/MessageBoxButtons.hpp>
#include <com/sun/star/awt/MessageBoxResults.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XKeyHandler.hpp>
#include <com/sun/star/awt/XMessageBoxFactory.hpp>
#include <com/sun/star/awt/XToolkitExperimental.hpp>
#include <com/sun/star/awt/XUserInputInterception.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/task/XStatusIndicator.hpp>
#include <com/sun/star/task/XStatusIndicatorFactory.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/util/DateTime.hpp>
#include <cppuhelper/implbase1.hxx>
#include <ctime>
#include <map>
#include <rtl/ref.hxx>
#include <rtl/uri.hxx>
#include <set>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/commands.hpp"
#include "component/desk.hpp"
#include "component/documents.hpp"
#include "component/read_workbook.hpp"
#include "gather/combine.hpp"

namespace slipbark::addin {

using catalogue::menu_language;
using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY;
using css::uno::UNO_QUERY_THROW;

namespace {

struct Found {
    std::string path;  ///< from the folder on
    rtl::OUString url;
};

/// Every workbook below the folder, by path. `own` is the desk itself.
void find_workbooks(const Reference<css::ucb::XSimpleFileAccess3>& files, const rtl::OUString& folder,
                    const std::string& path, const rtl::OUString& own, int depth, std::vector<Found>& found) {
    for (const rtl::OUString& url : files->getFolderContents(folder, true)) {
        const rtl::OUString last = url.copy(url.lastIndexOf('/', url.getLength() - 1) + 1);
        const std::string name = to_utf8(rtl::Uri::decode(last, rtl_UriDecodeWithCharset, RTL_TEXTENCODING_UTF8));
        if (name.starts_with(".") || name.starts_with("~$") || url == own) continue;  // locks of offices
        constexpr int deepest = 20;  // a folder that is linked into itself ends here
        if (files->isFolder(url)) {
            if (depth < deepest) find_workbooks(files, url, path + name + "/", own, depth + 1, found);
        } else if (url.endsWithIgnoreAsciiCase(".ods") || url.endsWithIgnoreAsciiCase(".xlsx")) {
            found.push_back({path + name, url});
        }
    }
}

/// Shows how far it is, lets the office draw, and hears Esc.
class Progress {
  public:
    Progress(const Sent& sent, std::size_t steps) : shown_(!sent.silent), steps_(steps) {
        const Reference<css::task::XStatusIndicatorFactory> factory(sent.frame, UNO_QUERY);
        if (factory.is()) bar_ = factory->createStatusIndicator();
        if (bar_.is()) bar_->start(rtl::OUString(), static_cast<sal_Int32>(steps));
        if (!shown_) return;
        toolkit_.set(css::awt::Toolkit::create(sent.context), UNO_QUERY);
        keys_.set(sent.frame->getController(), UNO_QUERY);
        if (keys_.is()) keys_->addKeyHandler(escape_.get());
    }
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;
    ~Progress() {
        try {
            if (keys_.is()) keys_->removeKeyHandler(escape_.get());
            if (bar_.is()) bar_->end();
        } catch (const css::uno::Exception&) {
            bar_.clear();  // the window is gone, and the bar with it
        }
    }

    /// False once the user has cancelled.
    bool step(std::size_t done) {
        if (bar_.is()) {
            bar_->setText(
                to_ustring(menu_language().translated(translatable("Reading workbook {1} of {2} (Esc: cancel)"),
                                                      {static_cast<double>(done + 1), static_cast<double>(steps_)})));
            bar_->setValue(static_cast<sal_Int32>(done));
        }
        if (toolkit_.is()) toolkit_->processEventsToIdle();
        return !escape_->pressed();
    }

  private:
    class Escape final : public cppu::WeakImplHelper1<css::awt::XKeyHandler> {
      public:
        sal_Bool SAL_CALL keyPressed(const css::awt::KeyEvent& event) override {
            if (event.KeyCode != css::awt::Key::ESCAPE) return false;
            pressed_ = true;
            return true;
        }
        sal_Bool SAL_CALL keyReleased(const css::awt::KeyEvent& /*event*/) override { return false; }
        void SAL_CALL disposing(const css::lang::EventObject& /*source*/) override { pressed_ = true; }
        [[nodiscard]] bool pressed() const { return pressed_; }

      private:
        bool pressed_ = false;
    };

    bool shown_;
    std::size_t steps_;
    Reference<css::task::XStatusIndicator> bar_;
    Reference<css::awt::XToolkitExperimental> toolkit_;
    Reference<css::awt::XUserInputInterception> keys_;
    rtl::Reference<Escape> escape_{new Escape};
};

/// Whether the user agrees to what is about to be read.
bool agreed(const Sent& sent, const std::string& text) {
    if (sent.silent) return true;
    const Reference<css::awt::XMessageBoxFactory> toolkit(css::awt::Toolkit::create(sent.context), UNO_QUERY_THROW);
    const Reference<css::awt::XWindowPeer> parent(sent.frame->getContainerWindow(), UNO_QUERY_THROW);
    const auto box =
        toolkit->createMessageBox(parent, css::awt::MessageBoxType_QUERYBOX,
                                  css::awt::MessageBoxButtons::BUTTONS_OK_CANCEL, "Slipbark", to_ustring(text));
    return box->execute() == css::awt::MessageBoxResults::OK;
}

double saved_at(const Reference<css::ucb::XSimpleFileAccess3>& files, const rtl::OUString& url) {
    const css::util::DateTime time = files->getDateTimeModified(url);
    const Day day = std::chrono::year{time.Year} / std::chrono::month{time.Month} / std::chrono::day{time.Day};
    const double seconds = time.Hours * 3600.0 + time.Minutes * 60.0 + time.Seconds + time.NanoSeconds / 1e9;
    return static_cast<double>(day.time_since_epoch().count()) + seconds / 86400;
}

Day today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return std::chrono::year{local.tm_year + 1900} / (local.tm_mon + 1) / local.tm_mday;
}

Day day_of(double serial) {
    using namespace std::chrono_literals;
    return std::chrono::sys_days(1899y / 12 / 30) + std::chrono::days(static_cast<int>(std::floor(serial)));
}

/// A day as a text of a list has it: 2027-09-20.
std::string written(Day day) { return slipbark::filled("{1}", {day}); }

std::string in_percent(double share) { return slipbark::filled("{1}", {std::round(100 * share)}); }

/// "A 72 % (65 to 78), B 81 % (70 to 89)".
std::string written(const std::vector<gather::Take>& takes) {
    std::string all;
    for (const auto& take : takes) {
        all += (all.empty() ? "" : "; ") +
               menu_language().translated(translatable("{1} {2} % ({3} to {4})"),
                                          {take.lot.empty() ? "-" : take.lot, in_percent(take.take),
                                           in_percent(take.low), in_percent(take.high)});
    }
    return all;
}

/// What is due from today on for two weeks.
std::string written(const std::vector<gather::Due>& due, Day from) {
    constexpr std::chrono::days two_weeks{14};
    std::string all;
    for (const auto& one : due) {
        const Day day = day_of(one.day);
        if (day < from || day > from + two_weeks) continue;
        all += (all.empty() ? "" : "; ") + written(day) + " " + one.stage;
    }
    return all;
}

std::string joined(const std::vector<std::string>& texts) {
    std::string all;
    for (const std::string& text : texts) all += (all.empty() ? "" : " ") + text;
    return all;
}

/// "Maren Olsen" as "M. O."
std::string initials_of(const std::string& name) {
    std::string initials;
    bool first = true;
    for (std::size_t at = 0; at < name.size(); ++at) {
        const bool inside = (static_cast<unsigned char>(name[at]) & 0xC0U) == 0x80U;  // of a letter of several bytes
        if (name[at] == ' ' || name[at] == '-') {
            first = true;
        } else if (first || (inside && !initials.empty() && initials.back() != '.')) {
            if (!inside) initials += initials.empty() ? "" : " ";
            initials += name[at];
            first = false;
            const bool more = at + 1 < name.size() && (static_cast<unsigned char>(name[at + 1]) & 0xC0U) == 0x80U;
            if (!more) initials += '.';
        }
    }
    return initials;
}

/// Whether the desk shows who grafted: the adviser has chosen "initials", in whatever language.
bool shows_grafters(const Reference<css::frame::XModel>& desk) {
    const auto cell = named_cells(desk, "show_grafters");
    if (!cell.is()) return false;
    const std::string choice = to_utf8(shown(cell->getCellByPosition(0, 0)));
    return std::ranges::any_of(catalogue::languages(), [&](const catalogue::Language& language) {
        return choice == language.translated(translatable("initials"));
    });
}

/// Days of the desk's own calendar.
class Calendar {
  public:
    explicit Calendar(const Reference<css::frame::XModel>& desk)
        : null_date_(null_date_of(Document(desk, UNO_QUERY_THROW))) {}
    [[nodiscard]] Any cell(std::optional<double> serial) const {
        if (!serial) return cell_of(std::string());
        return Any(static_cast<double>((day_of(*serial) - null_date_).count()));
    }
    [[nodiscard]] double serial(Day day) const { return static_cast<double>((day - null_date_).count()); }

  private:
    Day null_date_;
};

DeskLine line_of(const gather::GatheredBlock& block, const Calendar& calendar, Day now) {
    const gather::BlockLine& line = block.line;
    const auto& take = line.take;
    const auto limit = [&](double gather::Take::*member) {
        return cell_of(take ? std::optional((*take).*member) : std::nullopt);
    };
    return {cell_of(block.client),
            cell_of(block.path),
            cell_of(line.block),
            cell_of(line.season),
            cell_of(line.old_variety),
            cell_of(line.new_variety),
            cell_of(line.trees),
            cell_of(line.grafts),
            limit(&gather::Take::take),
            limit(&gather::Take::low),
            limit(&gather::Take::high),
            cell_of(written(line.takes)),
            cell_of(line.regrafts),
            cell_of(line.days),
            cell_of(line.cost_per_tree),
            cell_of(line.payback),
            cell_of(line.lowest_cash),
            cell_of(menu_language().translated(gather::name_of(line.state))),
            cell_of(std::optional(static_cast<double>(line.state))),
            cell_of(line.overdue),
            cell_of(written(line.due, now)),
            cell_of(line.sticks),
            calendar.cell(line.order_by),
            cell_of(joined(line.checks)),
            calendar.cell(line.as_of)};
}

DeskLine line_of(const gather::GatheredCount& count, bool with_grafters) {
    const gather::CountLine& line = count.line;
    return {cell_of(count.path),
            cell_of(line.season),
            cell_of(count.client),
            cell_of(line.block),
            cell_of(line.method),
            cell_of(line.lot),
            cell_of(line.nursery),
            cell_of(with_grafters ? initials_of(line.grafter) : std::string()),
            cell_of(std::optional(line.trees)),
            cell_of(std::optional(line.grafts)),
            cell_of(std::optional(line.live))};
}

DeskLine line_of(const gather::Problem& problem) {
    return {cell_of(problem.path), cell_of(menu_language().translated(problem.reason))};
}

/// Lines of a table by the workbook they are from.
using ByFile = std::map<std::string, std::vector<DeskLine>>;

ByFile by_file(const DeskTable& table, const std::vector<DeskLine>& lines) {
    ByFile all;
    for (const DeskLine& line : lines) all[file_of(table, line)].push_back(line);
    return all;
}

struct Changes {
    int fresh = 0;
    int changed = 0;
    int same = 0;
    int gone = 0;
};

Changes changes_of(const ByFile& blocks_before, const ByFile& counts_before, const ByFile& blocks,
                   const ByFile& counts) {
    const auto lines = [](const ByFile& all, const std::string& file) {
        const auto found = all.find(file);
        return found == all.end() ? std::vector<DeskLine>() : found->second;
    };
    std::set<std::string> files;
    for (const ByFile* all : {&blocks_before, &counts_before, &blocks, &counts}) {
        for (const auto& [file, unused] : *all) files.insert(file);
    }
    Changes changes;
    for (const std::string& file : files) {
        const bool was = blocks_before.contains(file) || counts_before.contains(file);
        const bool is = blocks.contains(file) || counts.contains(file);
        const bool same =
            lines(blocks_before, file) == lines(blocks, file) && lines(counts_before, file) == lines(counts, file);
        ++(!was ? changes.fresh : !is ? changes.gone : same ? changes.same : changes.changed);
    }
    return changes;
}

/// Nothing is calculated while many cells change.
class Uncalculated {
  public:
    explicit Uncalculated(const Reference<css::frame::XModel>& model)
        : document_(model, UNO_QUERY_THROW), automatic_(document_->isAutomaticCalculationEnabled()) {
        document_->enableAutomaticCalculation(false);
    }
    Uncalculated(const Uncalculated&) = delete;
    Uncalculated& operator=(const Uncalculated&) = delete;
    ~Uncalculated() { document_->enableAutomaticCalculation(automatic_); }

  private:
    Reference<css::sheet::XCalculatable> document_;
    bool automatic_;
};

/// Marks that a gathering is under way, since the office takes clicks while it runs.
class Once {
  public:
    Once() : first_(!running_) { running_ = true; }
    Once(const Once&) = delete;
    Once& operator=(const Once&) = delete;
    ~Once() {
        if (first_) running_ = false;
    }
    [[nodiscard]] bool first() const { return first_; }

  private:
    static inline bool running_ = false;
    bool first_;
};

std::string told(const Changes& changes, std::size_t files, std::size_t problems) {
    std::string text = menu_language().translated(
        translatable("Workbooks read: {1}. New: {2}, changed: {3}, as before: {4}, gone from the folder: {5}."),
        {static_cast<double>(files), static_cast<double>(changes.fresh), static_cast<double>(changes.changed),
         static_cast<double>(changes.same), static_cast<double>(changes.gone)});
    if (problems > 0) {
        text += "\n" + menu_language().translated(translatable("Listed on sheet Problems, with the reason: {1}."),
                                                  {static_cast<double>(problems)});
    }
    return text;
}

}  // namespace

Done gather_workbooks(const Sent& sent) {
    const auto desk = sent.document();
    const auto folder_cells = named_cells(desk, "folder");
    if (!folder_cells.is() || !is_desk(desk)) {
        return {
            menu_language().translated(translatable("This is no desk: open one with Rework > New adviser's desk."))};
    }
    const Once once;
    if (!once.first()) return {.text = {}, .worth_a_window = false};
    const auto folder = chosen_folder(sent, "folder", gather_the_workbooks.title);
    if (folder.isEmpty()) {
        return {menu_language().translated(
            translatable("Nothing was gathered: enter the folder of the workbooks on sheet Desk."))};
    }
    const auto files = css::ucb::SimpleFileAccess::create(sent.context);
    if (!files->exists(folder) || !files->isFolder(folder)) {
        return {menu_language().translated(translatable("There is no folder {1}: enter one that is there."),
                                           {to_utf8(folder)})};
    }
    std::vector<Found> found;
    find_workbooks(files, folder, "", desk->getURL(), 0, found);
    std::ranges::sort(found, {}, &Found::path);
    if (!agreed(sent,
                menu_language().translated(
                    translatable("{1} workbooks in {2} will be read: client, block, varieties, trees, grafts, takes, "
                                 "dates, costs and checks of each. Nothing is written to them, and nothing leaves this "
                                 "computer."),
                    {static_cast<double>(found.size()), to_utf8(folder)}))) {
        return {menu_language().translated(translatable("Nothing was gathered."))};
    }

    std::vector<gather::SourceFile> sources;
    std::vector<gather::Problem> unread;
    {
        Progress progress(sent, found.size());
        for (std::size_t at = 0; at < found.size(); ++at) {
            if (!progress.step(at)) {
                return {menu_language().translated(translatable("Cancelled: the desk is as it was before."))};
            }
            auto cells = read_workbook(sent.context, found[at].url);
            if (const auto* why = std::get_if<Message>(&cells)) {
                unread.push_back({found[at].path, *why});
                continue;
            }
            auto taken =
                gather::harvest(std::get<gather::WorkbookCells>(cells), std::string(workbooks::workbook_property));
            if (const auto* why = std::get_if<Message>(&taken)) {
                unread.push_back({found[at].path, *why});
            } else {
                sources.push_back(
                    {found[at].path, saved_at(files, found[at].url), std::get<gather::Harvest>(std::move(taken))});
            }
        }
    }
    const std::size_t read = sources.size();
    gather::Tables tables = gather::combine(std::move(sources));

    const auto blocks_before = by_file(desk_blocks, read_lines(desk, desk_blocks));
    const auto counts_before = by_file(desk_counts, read_lines(desk, desk_counts));
    const Calendar calendar(desk);
    std::vector<DeskLine> blocks;
    std::vector<DeskLine> counts;
    std::vector<DeskLine> problems;
    for (const auto& block : tables.blocks) blocks.push_back(line_of(block, calendar, today()));
    const bool with_grafters = shows_grafters(desk);
    for (const auto& count : tables.counts) counts.push_back(line_of(count, with_grafters));
    for (gather::Problem& problem : unread) {
        DeskLine line = line_of(problem);
        const auto block = blocks_before.find(problem.path);
        const auto count = counts_before.find(problem.path);
        if (block != blocks_before.end()) blocks.insert(blocks.end(), block->second.begin(), block->second.end());
        if (count != counts_before.end()) counts.insert(counts.end(), count->second.begin(), count->second.end());
        if (block != blocks_before.end() || count != counts_before.end()) {
            line[1] = cell_of(menu_language().translated(problem.reason) + " " +
                              menu_language().translated(translatable("Its figures of the last gathering were kept.")));
        }
        problems.push_back(std::move(line));
    }
    for (const auto& problem : tables.problems) problems.push_back(line_of(problem));

    {
        const UndoStep step(desk, gather_the_workbooks.title);
        const Uncalculated until_done(desk);
        write_lines(desk, {{desk_blocks, blocks}, {desk_counts, counts}, {desk_problems, problems}});
        if (const auto gathered_on = named_cells(desk, "gathered_on"); gathered_on.is()) {
            gathered_on->getCellByPosition(0, 0)->setValue(calendar.serial(today()));
        }
    }
    const Changes changes =
        changes_of(blocks_before, counts_before, by_file(desk_blocks, blocks), by_file(desk_counts, counts));
    return {told(changes, read, problems.size())};
}

}  // namespace slipbark::addin
