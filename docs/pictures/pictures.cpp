// Brings an office with windows to what the pictures of the docs show. For each it writes the picture's name and waits
// for a line: in that time docs/pictures/run takes the picture, and closes a dialog that is open.

#include <array>
#include <chrono>
#include <com/sun/star/awt/XTopWindow2.hpp>
#include <com/sun/star/awt/XWindow.hpp>
#include <com/sun/star/frame/XController.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <future>
#include <iostream>
#include <optional>
#include <stdexcept>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "composer/registry.hpp"
#include "office/office.hpp"

namespace {

using namespace slipbark::office;
using css::uno::UNO_QUERY_THROW;

void take(const std::string& picture) {
    std::cout << picture << std::endl;
    std::string taken;
    if (!std::getline(std::cin, taken)) throw std::runtime_error("nobody takes the pictures");
}

/// One workbook in a window that fills the screen.
class Shown_book {
  public:
    Shown_book(const Office& office, const std::filesystem::path& file)
        : Shown_book(office, office.open_url(file_url(file), true, false)) {}
    Shown_book(const Office& office, Book book)
        : office_(office),
          book_(std::move(book)),
          controller_(Ref<css::frame::XModel>(book_.document(), UNO_QUERY_THROW)->getCurrentController()) {
        const Ref<css::awt::XTopWindow2> window(controller_->getFrame()->getContainerWindow(), UNO_QUERY_THROW);
        window->setIsMaximized(true);
        std::this_thread::sleep_for(std::chrono::seconds(2));  // or a cell is looked for in the smaller window
        book_.recalculate();
    }
    [[nodiscard]] const Book& book() const { return book_; }

    /// Goes to a cell: its address, or the name that it has.
    void go(const std::string& where) const {
        const bool address = where.find('.') != std::string::npos;
        const Ref<css::view::XSelectionSupplier> selection(controller_, UNO_QUERY_THROW);
        selection->select(css::uno::Any(book_.range(address ? where : book_.named(where))));
    }

    /// Does what a menu does, and takes the picture of the dialog that it opens: the call comes back when that is
    /// closed.
    void take_dialog(const std::string& picture, const std::string& command) const {
        const auto done = std::async(std::launch::async, [&] { office_.dispatch(book_, command); });
        take(picture);
    }

    void empty() const { office_.dispatch(book_, "slipbark:empty-form", silent()); }

  private:
    const Office& office_;
    Book book_;
    Ref<css::frame::XController> controller_;
};

/// The desk with the plans of some clients, a log and records, all of them the examples with other figures.
void take_desk(const Office& office, const std::filesystem::path& examples) {
    const auto growers = std::filesystem::temp_directory_path() / "slipbark-growers";
    std::filesystem::remove_all(growers);
    {
        const Book plan = office.open_url(file_url(examples / "rework-plan.fods"), true);
        const double start = plan.shown(plan.named("graft_date")).number;
        int number = 0;
        for (const char* client :
             {"Alder Farm", "Birch Farm", "Cedar Farm", "Dogwood Farm", "Elder Farm"}) {  // invented
            ++number;
            plan.set_text(plan.named("block"), "Block " + std::to_string(number));
            plan.set(plan.named("trees"), 240 + 70 * number);
            plan.set(plan.named("as_of"), start - 60 + 12 * number);
            std::filesystem::create_directories(growers / client);
            plan.save_as(growers / client / "plan.ods", "calc8");
        }
    }
    for (const auto& [name, client] : {std::pair{"inspection-log", "Alder Farm"}, std::pair{"records", "Cedar Farm"}}) {
        const Book book = office.open_url(file_url(examples / (std::string(name) + ".fods")), true);
        book.save_as(growers / client / (std::string(name) + ".ods"), "calc8");
    }
    const Shown_book desk(office, examples / "desk.fods");
    desk.book().set_text(desk.book().named("folder"), growers.string());
    office.dispatch(desk.book(), "slipbark:gather", silent());
    take("desk");
    std::filesystem::remove_all(growers);
}

void take_all(const Office& office, const std::filesystem::path& examples) {
    for (const auto& listed : slipbark::workbooks::all) {
        const std::string name(listed.file);
        if (name == "desk") continue;  // below, with what it gathers
        const Shown_book shown(office, examples / (name + ".fods"));
        if (name == "seasons") shown.go("Arrange.C7");
        take(name);
        if (name == "inspection-log") {
            shown.go("Map.A1");
            take("block-map");
        }
    }
    {
        // The season as it happens: ten rows grafted, three of them looked at, the third week begins.
        const Shown_book season(office, examples / "rework-plan.fods");
        const double start = season.book().shown(season.book().named("graft_date")).number;
        const std::array<int, 10> days{0, 1, 2, 3, 4, 7, 8, 9, 10, 11};
        int line = 6;
        const auto write = [&](double date, const char* what, std::size_t row, std::optional<double> grafts,
                               std::optional<double> live, const char* who, double hours) {
            const std::string at = std::to_string(line++);
            season.book().set("Day-book.B" + at, date);
            season.book().set_text("Day-book.C" + at, what);
            season.book().set("Day-book.D" + at, static_cast<double>(row));
            if (grafts) season.book().set("Day-book.F" + at, *grafts);
            if (live) season.book().set("Day-book.G" + at, *live);
            season.book().set_text("Day-book.I" + at, who);
            season.book().set("Day-book.J" + at, hours);
        };
        const std::array<const char*, 3> people{"Maren", "Tobiah", "Quill"};  // invented
        for (std::size_t row = 0; row < days.size(); ++row) {
            write(start + days.at(row), "grafted", row + 1, 224, {}, people.at(row % 3), 8);
        }
        for (const auto& [row, live] : {std::pair{1, 160}, std::pair{2, 148}, std::pair{3, 121}}) {
            write(start + 16, "counted", static_cast<std::size_t>(row), {}, live, "", 0.8);
        }
        season.go("Day-book.B19");
        take("season-day-book");
        season.book().set(season.book().named("week_from"), start + 14);
        season.go("Rows.B9");
        take("season-rows");
        season.go("Week.D5");
        take("season-week");
    }
    take_desk(office, examples);
    const Shown_book plan(office, examples / "rework-plan.fods");
    take("menu");
    plan.go("sticks");
    plan.take_dialog("wizard", ".uno:FunctionDialog");
    plan.take_dialog("templates", ".uno:NewDoc");
    plan.take_dialog("extension-manager", "service:com.sun.star.deployment.ui.PackageManagerDialog");
    plan.book().set(plan.book().named("buds_per_stick"), 2);
    plan.take_dialog("explain", "slipbark:explain");
}

/// A stranger's first hour: an office of that country, a new plan from its menu, emptied, and a block of one's own.
struct Hour {
    std::string locale;
    std::string language;  ///< of the menus; as the machine has it where empty
    std::string empty;     ///< picture of the empty form; none where empty
    std::string filled;
    std::vector<std::pair<std::string, std::string>> texts;
    std::vector<std::pair<std::string, double>> numbers;
};

/// A new plan from the menu of an office of that country, in a profile of its own.
template <typename Use>
void in_new_plan(const std::filesystem::path& extensions, const std::string& locale, const std::string& language,
                 const Use& use) {
    const auto profile = std::filesystem::temp_directory_path() / ("slipbark-pictures-" + locale);
    std::filesystem::remove_all(profile);
    make_profile(profile, {.locale = locale, .language = language});
    {
        const Office office({.bundled = extensions, .profile = profile, .words = {}, .headless = false});
        const Book any = office.new_book(false);
        office.dispatch(any, "slipbark:new-rework-plan", silent());
        use(Shown_book(office, Book(office.desktop()->getCurrentComponent())));
    }
    std::filesystem::remove_all(profile);
}

void take_hour(const std::filesystem::path& extensions, const Hour& hour) {
    in_new_plan(extensions, hour.locale, hour.language, [&](const Shown_book& own) {
        own.empty();
        own.go("block");
        if (!hour.empty.empty()) take(hour.empty);
        const auto at = [&](const std::string& name) {
            return name.find('.') == std::string::npos ? own.book().named(name) : name;
        };
        for (const auto& [name, text] : hour.texts) own.book().set_text(at(name), text);
        for (const auto& [name, value] : hour.numbers) own.book().set(at(name), value);
        take(hour.filled);
    });
}

const Hour united_states{
    .locale = "en-US",
    .language = "en-US",
    .empty = "first-hour-empty",
    .filled = "first-hour-us",
    .texts = {{"units", "US"},
              {"block", "Own block"},
              {"old_variety", "Old"},
              {"new_variety", "New"},
              {"method", "wrapped bark graft"},
              {"currency", "dollars"},
              {"Orders.B12", "New, own mother trees"}},
    .numbers = {{"area_ha", 9},         {"row_spacing_m", 20},   {"tree_spacing_m", 18}, {"trees", 900},
                {"stubs_per_tree", 2},  {"stub_diameter_cm", 3}, {"grafts_per_stub", 1}, {"buds_per_graft", 3},
                {"buds_per_stick", 9},  {"days_in_store", 2},    {"expected_take", 0.8}, {"live_wanted", 1},
                {"graft_date", 46461},  {"harvest_month", 11},   {"slip_days", 30},      {"crew", 5},
                {"grafts_per_day", 90}, {"day_pay", 180},        {"hour_pay", 20},       {"row_trees", 45},
                {"latitude", 36.7},     {"longitude", -119.8},   {"utc_offset", -8},     {"mature_yield", 210},
                {"old_yield", 180},     {"new_price", 0.45},     {"pick_cost", 0.1},     {"old_price", 0.2},
                {"growing_cost", 9000}, {"stick_price", 0.6},    {"royalty", 2.5},       {"visit_cost", 1.5},
                {"Orders.E12", 300},    {"Orders.L59", 75},      {"Orders.L60", 9},      {"Orders.L63", 50},
                {"Orders.L64", 20},     {"Orders.L65", 0.5}}};

const Hour spain{
    .locale = "es-ES",
    .language = "es",
    .empty = "",
    .filled = "first-hour-es",
    .texts = {{"block", "Parcela propia"},
              {"old_variety", "Vieja"},
              {"new_variety", "Nueva"},
              {"method", "injerto de corteza con bolsa"},
              {"currency", "florines"},
              {"Pedidos.B12", "Nueva, del vecino"}},
    .numbers = {{"area_ha", 0.1},       {"row_spacing_m", 5},      {"tree_spacing_m", 5},   {"trees", 40},
                {"stubs_per_tree", 3},  {"stub_diameter_cm", 5.5}, {"grafts_per_stub", 2},  {"buds_per_graft", 2},
                {"buds_per_stick", 8},  {"days_in_store", 1},      {"expected_take", 0.75}, {"live_wanted", 3},
                {"graft_date", 46643},  {"harvest_month", 5},      {"slip_days", 30},       {"crew", 1},
                {"grafts_per_day", 80}, {"day_pay", 70},           {"hour_pay", 9},         {"row_trees", 8},
                {"latitude", -33.5},    {"longitude", -70.7},      {"utc_offset", -4},      {"mature_yield", 80},
                {"old_yield", 70},      {"new_price", 0.6},        {"pick_cost", 0.12},     {"old_price", 0.3},
                {"growing_cost", 400},  {"stick_price", 0.5},      {"royalty", 0},          {"visit_cost", 1},
                {"Pedidos.E12", 15},    {"Pedidos.L59", 40},       {"Pedidos.L60", 4},      {"Pedidos.L61", 9},
                {"Pedidos.L62", 3},     {"Pedidos.L63", 20},       {"Pedidos.L64", 8},      {"Pedidos.L65", 0.3}}};

/// The first screen of a new plan in an office of that country.
struct Opening {
    const char* locale;
    const char* language;
    const char* picture;
};

constexpr std::array openings{Opening{"pt-BR", "pt-BR", "rework-plan-pt"}, Opening{"fr-FR", "fr", "rework-plan-fr"},
                              Opening{"it-IT", "it", "rework-plan-it"}};

}  // namespace

int main(int count, char** words) {
    try {
        if (count != 3) throw std::invalid_argument("usage: slipbark_pictures EXTENSIONS EXAMPLES");
        {
            const Office office({.bundled = words[1], .profile = {}, .words = {}, .headless = false});
            take_all(office, words[2]);
        }
        for (const Hour* hour : {&united_states, &spain}) take_hour(words[1], *hour);
        for (const Opening& one : openings) {
            in_new_plan(words[1], one.locale, one.language, [&](const Shown_book&) { take(one.picture); });
        }
        return 0;
    } catch (const css::uno::Exception& error) {
        std::cerr << utf8(error.Message) << "\n";
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
    }
    return 1;
}
