// The composer's charts as Calc takes them up: a trial workbook with one of each kind.

#include <com/sun/star/chart/XChartDocument.hpp>
#include <com/sun/star/chart2/AxisType.hpp>
#include <com/sun/star/chart2/XChartDocument.hpp>
#include <com/sun/star/chart2/XCoordinateSystemContainer.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/document/XEmbeddedObjectSupplier.hpp>
#include <com/sun/star/table/XTableCharts.hpp>
#include <com/sun/star/table/XTableChartsSupplier.hpp>
#include <fstream>

#include "calc.hpp"
#include "composer/sheet.hpp"
#include "folder.hpp"

namespace slipbark::tests {

using namespace office;
using css::uno::UNO_QUERY_THROW;

namespace {

/// One sheet with a chart of days in column B and values in columns C to E.
std::string with(compose::Chart chart) {
    compose::Workbook book("trial", "Trial", "");
    compose::Sheet& sheet = book.sheet("Plan", compose::Paper::portrait);
    for (const auto& [column, name] : {std::pair{"C", "Low"}, {"D", "On to the middle"}, {"E", "On to the high"}}) {
        sheet.put(compose::Address(column, 3), name);
    }
    for (const auto& [row, day] : {std::pair{4, 8U}, {5, 12U}, {6, 18U}, {7, 24U}}) {
        sheet.put(compose::Address("B", row), compose::Date{std::chrono::year{2027} / 9 / std::chrono::day{day}},
                  compose::Style::plain, compose::Format::date);
        for (const char* column : {"C", "D", "E"}) sheet.put(compose::Address(column, row), row);
    }
    sheet.chart("B9", 12, 6, std::move(chart));
    return book.write();
}

compose::Chart plain() {
    return {.title = "Trial",
            .description = "A trial",
            .categories = "B4:B7",
            .category_title = "day",
            .value_title = "value",
            .series = {{.values = "C4:C7", .label = "C3", .shape = compose::Series::Shape::line}}};
}

struct Taken {
    std::string kind;
    sal_Int32 across = 0;  ///< css::chart2::AxisType
    bool stacked = false;
    bool lying = false;
};

Taken taken(compose::Chart chart) {
    const Folder folder;
    const auto file = folder / "trial.fods";
    std::ofstream(file, std::ios::binary) << with(std::move(chart));
    const Book book = calc().copy_of(file);
    Ref<css::table::XTableChartsSupplier> sheet;
    book.document()->getSheets()->getByName("Plan") >>= sheet;
    const Ref<css::container::XIndexAccess> charts(sheet->getCharts(), UNO_QUERY_THROW);
    const Ref<css::document::XEmbeddedObjectSupplier> object(charts->getByIndex(0), UNO_QUERY_THROW);
    const Ref<css::chart::XChartDocument> document(object->getEmbeddedObject(), UNO_QUERY_THROW);
    const Ref<css::beans::XPropertySet> diagram(document->getDiagram(), UNO_QUERY_THROW);
    Taken found{utf8(document->getDiagram()->getDiagramType())};
    diagram->getPropertyValue("Stacked") >>= found.stacked;
    // Calc calls bars that lie Vertical.
    if (found.kind == "com.sun.star.chart.BarDiagram") diagram->getPropertyValue("Vertical") >>= found.lying;
    const Ref<css::chart2::XChartDocument> inner(document, UNO_QUERY_THROW);
    const Ref<css::chart2::XCoordinateSystemContainer> systems(inner->getFirstDiagram(), UNO_QUERY_THROW);
    found.across = systems->getCoordinateSystems()[0]->getAxisByDimension(0, 0)->getScaleData().AxisType;
    return found;
}

TEST(Charts, AreTakenUpAsTheComposerMeansThem) {
    const Taken line = taken(plain());
    EXPECT_EQ(line.kind, "com.sun.star.chart.LineDiagram");
    EXPECT_NE(line.across, css::chart2::AxisType::REALNUMBER);

    compose::Chart chart = plain();
    chart.across = compose::Across::dates;
    const Taken dates = taken(chart);
    EXPECT_EQ(dates.kind, "com.sun.star.chart.LineDiagram");
    EXPECT_EQ(dates.across, css::chart2::AxisType::DATE);

    chart = plain();
    chart.categories = "D4:D7";
    chart.across = compose::Across::numbers;
    const Taken scatter = taken(chart);
    EXPECT_EQ(scatter.kind, "com.sun.star.chart.XYDiagram");
    EXPECT_EQ(scatter.across, css::chart2::AxisType::REALNUMBER);

    chart = plain();
    // A fan: bars from a low over a middle to a high value, on a hidden one that reaches up to the low.
    chart.stacked = true;
    chart.series = {{.values = "C4:C7", .label = "C3", .shape = compose::Series::Shape::hidden},
                    {.values = "D4:D7", .label = "D3", .paint = 2},
                    {.values = "E4:E7", .label = "E3", .paint = 0}};
    const Taken fan = taken(chart);
    EXPECT_EQ(fan.kind, "com.sun.star.chart.BarDiagram");
    EXPECT_TRUE(fan.stacked);
    EXPECT_FALSE(fan.lying);

    chart = plain();
    // A tornado: bars to both sides of 0.
    chart.sideways = true;
    chart.stacked = true;
    chart.series = {{.values = "C4:C7", .label = "C3", .paint = 1}, {.values = "D4:D7", .label = "D3", .paint = 0}};
    const Taken tornado = taken(chart);
    EXPECT_EQ(tornado.kind, "com.sun.star.chart.BarDiagram");
    EXPECT_TRUE(tornado.stacked);
    EXPECT_TRUE(tornado.lying);
}

}  // namespace
}  // namespace slipbark::tests
