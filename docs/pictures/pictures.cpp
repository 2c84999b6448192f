// Brings an office with windows to what the pictures of the docs show. For each it writes the picture's name and waits
// for a line: in that time docs/pictures/run takes the picture, and closes a dialog that is open.

#include <chrono>
#include <com/sun/star/awt/XTopWindow2.hpp>
#include <com/sun/star/awt/XWindow.hpp>
#include <com/sun/star/frame/DispatchHelper.hpp>
#include <com/sun/star/frame/XController.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <future>
#include <iostream>
#include <stdexcept>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "office/office.hpp"
#include "workbooks/registry.hpp"

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
        : office_(office),
          book_(office.open_url(file_url(file), true, false)),
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
        const auto done = std::async(std::launch::async, [&] {
            const Ref<css::frame::XDispatchProvider> frame(controller_->getFrame(), UNO_QUERY_THROW);
            css::frame::DispatchHelper::create(office_.context())->executeDispatch(frame, ustring(command), "", 0, {});
        });
        take(picture);
    }

    void empty() const {
        const Ref<css::frame::XDispatchProvider> frame(controller_->getFrame(), UNO_QUERY_THROW);
        css::frame::DispatchHelper::create(office_.context())
            ->executeDispatch(frame, "slipbark:empty-form", "", 0,
                              properties({property("Silent", css::uno::Any(true))}));
    }

  private:
    const Office& office_;
    Book book_;
    Ref<css::frame::XController> controller_;
};

void take_all(const Office& office, const std::filesystem::path& examples) {
    for (const auto& listed : slipbark::workbooks::all) {
        const std::string name(listed.file);
        const Shown_book shown(office, examples / (name + ".fods"));
        if (name == "seasons") shown.go("Arrange.C7");
        take(name);
        if (name == "inspection-log") {
            shown.go("Map.A1");
            take("block-map");
        }
    }
    {
        // A stranger's first hour: the empty form, and a block of one's own in it.
        const Shown_book own(office, examples / "rework-plan.fods");
        own.empty();
        own.go("block");
        take("first-hour-empty");
        for (const auto& [name, text] :
             std::vector<std::pair<std::string, std::string>>{{"units", "US"},
                                                              {"block", "Own block"},
                                                              {"old_variety", "Old"},
                                                              {"new_variety", "New"},
                                                              {"method", "wrapped bark graft"},
                                                              {"currency", "dollars"}}) {
            own.book().set_text(own.book().named(name), text);
        }
        for (const auto& [name, value] : std::vector<std::pair<std::string, double>>{
                 {"area_ha", 9},         {"row_spacing_m", 20},   {"tree_spacing_m", 18}, {"trees", 900},
                 {"stubs_per_tree", 2},  {"stub_diameter_cm", 3}, {"grafts_per_stub", 1}, {"buds_per_graft", 3},
                 {"buds_per_stick", 9},  {"days_in_store", 2},    {"expected_take", 0.8}, {"live_wanted", 1},
                 {"graft_date", 46461},  {"harvest_month", 11},   {"slip_days", 30},      {"crew", 5},
                 {"grafts_per_day", 90}, {"day_pay", 180},        {"hour_pay", 20},       {"row_trees", 45},
                 {"latitude", 36.7},     {"longitude", -119.8},   {"utc_offset", -8},     {"mature_yield", 210},
                 {"old_yield", 180},     {"new_price", 0.45},     {"pick_cost", 0.1},     {"old_price", 0.2},
                 {"growing_cost", 9000}, {"stick_price", 0.6},    {"royalty", 2.5},       {"visit_cost", 1.5}}) {
            own.book().set(own.book().named(name), value);
        }
        take("first-hour-us");
    }
    const Shown_book plan(office, examples / "rework-plan.fods");
    take("menu");
    plan.go("sticks");
    plan.take_dialog("wizard", ".uno:FunctionDialog");
    plan.take_dialog("templates", ".uno:NewDoc");
    plan.take_dialog("extension-manager", "service:com.sun.star.deployment.ui.PackageManagerDialog");
    plan.book().set(plan.book().named("buds_per_stick"), 2);
    plan.take_dialog("explain", "slipbark:explain");
}

}  // namespace

int main(int count, char** words) {
    try {
        if (count != 3) throw std::invalid_argument("usage: slipbark_pictures EXTENSIONS EXAMPLES");
        const Office office({.bundled = words[1], .profile = {}, .words = {}, .headless = false});
        take_all(office, words[2]);
        return 0;
    } catch (const css::uno::Exception& error) {
        std::cerr << utf8(error.Message) << "\n";
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
    }
    return 1;
}
