// A stranger's first hour: an office of another country, an empty form, a block of one's own typed from the top as that
// country writes numbers and days, lots of one's own, and the printed plan.

#include <boost/algorithm/string/replace.hpp>

#include "catalogue/language.hpp"
#include "composer/registry.hpp"
#include "folder.hpp"
#include "languages.hpp"
#include "send.hpp"
#include "texts.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

using Typed = std::vector<std::pair<std::string, std::string>>;

class FirstHour : public testing::Test {
  protected:
    void begin(const Settings& settings, const catalogue::Language& language) {
        make_profile(folder / "profile", settings);
        office.emplace(start({.bundled = bundled(), .profile = folder / "profile", .words = {}}));
        // As from the menu: Rework > New rework plan.
        const Book any = office->new_book(false);
        command(any, "new-rework-plan", {}, &*office);
        book.emplace(office->desktop()->getCurrentComponent());
        const std::string said = command(*book, "empty-form", {}, &*office);
        ASSERT_TRUE(said.starts_with(language.translated(translatable(
            "The form is empty. Suggestions and reference values are kept. Edit > Undo brings back what was typed."))))
            << said;
        ASSERT_EQ(text("trees"), "");
        ASSERT_EQ(text("block"), "");
    }
    void type(const Typed& typed) {
        const Keyboard keyboard(*office, *book);
        for (const auto& [name, text] : typed) {
            keyboard.type(name.find('.') == std::string::npos ? book->named(name) : name, text);
        }
    }
    double number(const std::string& name) const { return book->shown(book->named(name)).number; }
    std::string text(const std::string& name) const { return book->shown(book->named(name)).text; }
    /// Prints, and looks at the paper (points of 1/72 inch, the first page lies) and at what is to be read on it.
    void expect_it_prints(double width, double height, const std::vector<std::string>& words,
                          const std::string& notes) const {
        const auto pdf = folder / "printed.pdf";
        const auto told = folder / "printed.txt";
        book->save_as(pdf, "calc_pdf_Export");
        ASSERT_TRUE(runs("pdftotext -layout '" + pdf.string() + "' '" + told.string() + "'"))
            << "pdftotext is missing: setup view";
        const std::string all = content(told);
        for (const std::string& word : words) {
            EXPECT_NE(all.find(word), std::string::npos) << word << " is not on paper";
        }
        // The notes tell what the example was, and what errors mean.
        const auto last_sheet = all.find(notes);
        ASSERT_NE(last_sheet, std::string::npos);
        for (const char* never : {"###", "#NAME", "#VALUE", "#REF", "#DIV", "Err:", "Kestrel", "Ember Moon"}) {
            const auto at = all.find(never, all.find("Ctrl+"));  // past the line for those who lack the extension
            EXPECT_TRUE(at == std::string::npos || at > last_sheet) << never << " is on paper:\n"
                                                                    << all.substr(at < 200 ? 0 : at - 200, 300);
        }
        const auto pages = matches(content(pdf), R"(/MediaBox\[0 0 ([0-9.]+) ([0-9.]+)\])");
        for (const auto& box : pages) {
            const double across = std::stod(box[1]);
            const double down = std::stod(box[2]);
            EXPECT_NEAR(std::min(across, down), height, 1);
            EXPECT_NEAR(std::max(across, down), width, 1);
        }
        EXPECT_GT(pages.size(), 10U);
    }

    Folder folder;
    std::optional<Office> office;
    std::optional<Book> book;
};

TEST_F(FirstHour, InAnOfficeOfTheUnitedStates) {
    begin({.locale = "en-US"}, catalogue::Language());
    EXPECT_TRUE(book->shown("Plan.B4").text.starts_with("Fill in the framed cells from the top: the line below names"));
    type({{"units", "US"},
          {"block", "Own block"},
          {"old_variety", "Old"},
          {"new_variety", "New"},
          {"area_ha", "9"},
          {"row_spacing_m", "20"},
          {"tree_spacing_m", "18"},
          {"trees", "900"},
          {"stubs_per_tree", "2"},
          {"stub_diameter_cm", "3"},
          {"grafts_per_stub", "1"},
          {"buds_per_graft", "3"},
          {"buds_per_stick", "9"},
          {"days_in_store", "2"},
          {"expected_take", "80%"},
          {"live_wanted", "1"},
          {"method", "wrapped bark graft"},
          {"graft_date", "3/15/2027"},
          {"as_of", "3/1/2027"},
          {"harvest_month", "11"},
          {"slip_days", "30"},
          {"crew", "5"},
          {"grafts_per_day", "90"},
          {"day_pay", "180"},
          {"hour_pay", "20"},
          {"row_trees", "45"},
          {"latitude", "36.7"},
          {"longitude", "-119.8"},
          {"utc_offset", "-8"},
          {"currency", "dollars"},
          {"mature_yield", "210"},
          {"old_yield", "180"},
          {"new_price", "0.45"},
          {"pick_cost", "0.1"},
          {"old_price", "0.2"},
          {"growing_cost", "9000"},
          {"stick_price", "0.6"},
          {"royalty", "2.5"},
          {"visit_cost", "1.5"},
          // A second lot of one's own; the first takes the other trees.
          {"Orders.B12", "New, own mother trees"},
          {"Orders.E12", "300"}});
    EXPECT_EQ(text("entries"), "");
    // 9 acres of 43,560 square feet at 20 x 18 feet: 1,089 sites.
    EXPECT_EQ(number("tree_places"), 1089);
    EXPECT_EQ(number("trees_in_lots"), 900);
    EXPECT_EQ(number("trees_in_rows"), 900);
    // 1,800 grafts, three scions of 3 buds from a stick of 9, 12 % spare: 672 sticks.
    EXPECT_EQ(number("sticks"), 672);
    EXPECT_EQ(text("graft_date"), "Mon 15 Mar 2027");
    // 450 grafts a day: four working days from Monday.
    EXPECT_EQ(number("finish_date") - number("graft_date"), 3);
    const std::string headline = book->shown("Plan.B4").text;
    EXPECT_NE(headline.find("grafts on 900 trees. Grafting runs from 15 Mar 2027 to 18 Mar 2027 with 5 grafters"),
              std::string::npos)
        << headline;
    // Costs wait for what packs cost: five are bought here.
    EXPECT_EQ(text("rework_cost"), "");
    EXPECT_EQ(book->shown("Plan.I35").text,
              "The prices of 5 packs are missing on sheet Orders (0 where one costs nothing).");
    type(
        {{"Orders.L59", "75"}, {"Orders.L60", "9"}, {"Orders.L63", "50"}, {"Orders.L64", "20"}, {"Orders.L65", "0.5"}});
    EXPECT_EQ(book->shown("Plan.I35").text, "");
    EXPECT_GT(number("rework_cost"), 900 * 2.5 + 672 * 0.6);
    EXPECT_GT(number("payback_year"), 1);
    EXPECT_EQ(book->errors(), std::vector<std::string>());
    // US Letter.
    expect_it_prints(792, 612,
                     {"Own block", "Order 672 sticks for 1,800 grafts on 900 trees", "Mon 15 Mar 2027", "dollars",
                      "acres", "New, own mother trees"},
                     "The example is invented");
}

/// An office of a country, and what is typed and read there in words.
struct Abroad {
    const char* locale;
    const char* language;
    const char* method;  ///< bagged bark graft
    const char* orders;  ///< the sheet
    const char* headline;
    const char* from_to;
    const char* first_day;
    const char* notes;
    const char* graft_date = "13/9/2027";  ///< typed
    const char* as_of = "1/9/2027";
};

class FirstHourAbroad : public FirstHour, public testing::WithParamInterface<Abroad> {};

INSTANTIATE_TEST_SUITE_P(
    Office, FirstHourAbroad,
    testing::ValuesIn(offices_to_try<Abroad>(
        {Abroad{"es-ES", "es", "injerto de corteza con bolsa", "Pedidos",
                "Pedir 68 varetas para 240 injertos en 40 árboles.", "del 13 sep 2027 al 15 sep 2027",
                "lun 13 sep 2027", "El ejemplo es inventado"},
         Abroad{"fr-FR", "fr", "couronne sous sachet", "Commandes",
                "Commandez 68 baguettes pour 240 greffes sur 40 arbres.", "du 13 sept 2027 au 15 sept 2027",
                "lun. 13 sept. 2027", "L'exemple est inventé"},
         Abroad{"it-IT", "it", "corona con sacchetto", "Ordini", "Ordinare 68 bacchette per 240 innesti su 40 alberi.",
                "dal 13 set 2027 al 15 set 2027", "lun 13 set 2027", "L'esempio è inventato"},
         Abroad{"pt-BR", "pt-BR", "coroa com saco", "Pedidos", "Peça 68 varetas para 240 enxertos em 40 árvores.",
                "de 13 set 2027 a 15 set 2027", "seg 13 set 2027", "O exemplo é inventado"},
         Abroad{"pt-PT", "pt", "coroa com saco", "Pedidos", "Peça 68 varetas para 240 enxertos em 40 árvores.",
                "de 13 set 2027 a 15 set 2027", "seg 13 set 2027", "O exemplo é inventado", "13-9-2027", "1-9-2027"}})),
    [](const auto& one) { return as_id(one.param.locale); });

TEST_P(FirstHourAbroad, FromAnEmptyFormToPaper) {
    const Abroad& here = GetParam();
    begin({.locale = here.locale, .language = here.language}, catalogue::language_for(here.language));
    const std::string orders = here.orders;
    type({{"block", "Parcela propia"},
          {"old_variety", "Vieja"},
          {"new_variety", "Nueva"},
          {"area_ha", "0,1"},
          {"row_spacing_m", "5"},
          {"tree_spacing_m", "5"},
          {"trees", "40"},
          {"stubs_per_tree", "3"},
          {"stub_diameter_cm", "5,5"},
          {"grafts_per_stub", "2"},
          {"buds_per_graft", "2"},
          {"buds_per_stick", "8"},
          {"days_in_store", "1"},
          {"expected_take", "75%"},
          {"live_wanted", "3"},
          {"method", here.method},
          {"graft_date", here.graft_date},
          {"as_of", here.as_of},
          {"harvest_month", "5"},
          {"slip_days", "30"},
          {"crew", "1"},
          {"grafts_per_day", "80"},
          {"day_pay", "70"},
          {"hour_pay", "9"},
          {"row_trees", "8"},
          {"latitude", "-33,5"},
          {"longitude", "-70,7"},
          {"utc_offset", "-4"},
          {"currency", "florines"},
          {"mature_yield", "80"},
          {"old_yield", "70"},
          {"new_price", "0,6"},
          {"pick_cost", "0,12"},
          {"old_price", "0,3"},
          {"growing_cost", "400"},
          {"stick_price", "0,5"},
          {"royalty", "0"},
          {"visit_cost", "1"},
          // A second lot, of another origin; the first takes the other trees.
          {orders + ".B12", "Nueva, del vecino"},
          {orders + ".E12", "15"}});
    EXPECT_EQ(text("entries"), "");
    EXPECT_EQ(number("tree_places"), 40);  // 1,000 square metres at 5 x 5
    EXPECT_EQ(number("trees_in_rows"), 40);
    EXPECT_EQ(number("sticks"), 68);                             // 240 grafts, four from a stick, 12 % spare: 67.2
    EXPECT_EQ(number("finish_date") - number("graft_date"), 2);  // 80 a day
    const std::string headline = book->shown(book->sheets().at(0) + ".B4").text;
    EXPECT_TRUE(headline.starts_with(here.headline)) << headline;
    EXPECT_NE(headline.find(here.from_to), std::string::npos) << headline;
    EXPECT_EQ(book->errors(), std::vector<std::string>());
    // A4.
    expect_it_prints(842, 595, {"Parcela propia", here.headline, here.first_day, "florines", "ha", "Nueva, del vecino"},
                     here.notes);
}

}  // namespace
}  // namespace slipbark::tests
