// The component itself, called with UNO values as the host calls it, in this process and without an office.

#include <gtest/gtest.h>
#include <uno/lbnames.h>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/lang/IllegalArgumentException.hpp>
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/implbase1.hxx>
#include <rtl/ref.hxx>
#include <slipbark/XBudwood.hpp>
#include <slipbark/XSupport.hpp>
#include <typelib/typedescription.hxx>
#include <uno/environment.hxx>

#include "catalogue/catalogue.hpp"
#include "component/convert.hpp"
#include "formula.hpp"
#include "glue_calls.hpp"
#include "misuse.hpp"
#include "ranges.hpp"
#include "right_call.hpp"

extern "C" com::sun::star::uno::XInterface* slipbark_rework(
    com::sun::star::uno::XComponentContext*, const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&);

namespace slipbark::addin {
namespace {

using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY_THROW;

/// A document of which only the null date is known.
class FakeDocument : public cppu::WeakImplHelper1<css::beans::XPropertySet> {
  public:
    explicit FakeDocument(css::util::Date null) : null_(null) {}
    Any SAL_CALL getPropertyValue(const rtl::OUString& name) override {
        if (name != "NullDate") throw css::beans::UnknownPropertyException(name, nullptr);
        return Any(null_);
    }
    Reference<css::beans::XPropertySetInfo> SAL_CALL getPropertySetInfo() override { return {}; }
    void SAL_CALL setPropertyValue(const rtl::OUString& /*name*/, const Any& /*value*/) override {}
    void SAL_CALL addPropertyChangeListener(
        const rtl::OUString& /*name*/, const Reference<css::beans::XPropertyChangeListener>& /*listener*/) override {}
    void SAL_CALL removePropertyChangeListener(
        const rtl::OUString& /*name*/, const Reference<css::beans::XPropertyChangeListener>& /*listener*/) override {}
    void SAL_CALL addVetoableChangeListener(
        const rtl::OUString& /*name*/, const Reference<css::beans::XVetoableChangeListener>& /*listener*/) override {}
    void SAL_CALL removeVetoableChangeListener(
        const rtl::OUString& /*name*/, const Reference<css::beans::XVetoableChangeListener>& /*listener*/) override {}

  private:
    css::util::Date null_;
};

template <class Interface>
Reference<Interface> component() {
    const Reference<css::uno::XInterface> made(slipbark_rework(nullptr, {}), SAL_NO_ACQUIRE);
    return Reference<Interface>(made, UNO_QUERY_THROW);
}

Row row_of(std::initializer_list<Any> cells) { return {cells.begin(), static_cast<sal_Int32>(cells.size())}; }

TEST(Component, SaysWhatItIs) {
    const auto info = component<css::lang::XServiceInfo>();
    EXPECT_TRUE(info->supportsService("slipbark.Rework"));
    // Claiming the host's own add-in service would load the library at every start.
    EXPECT_FALSE(info->supportsService("com.sun.star.sheet.AddIn"));
}

TEST(Component, IsOneObject) { EXPECT_EQ(component<css::uno::XInterface>(), component<css::uno::XInterface>()); }

/// Whether a binary object stands for this one now, as the host's reflection wants one.
template <class Interface>
bool is_bridged(const Reference<Interface>& object) {
    css::uno::Environment own(CPPU_CURRENT_LANGUAGE_BINDING_NAME);
    css::uno::Environment binary(UNO_LB_UNO);
    auto* const from = own.get()->pExtEnv;
    auto* const to = binary.get()->pExtEnv;
    rtl::OUString identity;
    from->getObjectIdentifier(from, &identity.pData, object.get());
    const css::uno::TypeDescription type(cppu::UnoType<Interface>::get());
    void* found = nullptr;
    to->getRegisteredInterface(to, &found, identity.pData,
                               reinterpret_cast<typelib_InterfaceTypeDescription*>(type.get()));
    if (found == nullptr) return false;
    to->releaseInterface(to, found);
    return true;
}

// The host would make one for every cell, which is half of what a call costs (docs/benchmarks.md).
TEST(Component, StaysBridgedBetweenCalls) {
    EXPECT_TRUE(is_bridged(component<XBudwood>()));
    EXPECT_TRUE(is_bridged(component<XSupport>()));
    const Reference<css::beans::XPropertySet> other(new FakeDocument({30, 12, 1899}));
    EXPECT_FALSE(is_bridged(other));
}

TEST(Component, TakesAndGivesWhatTheHostHandsOver) {
    const auto budwood = component<XBudwood>();
    EXPECT_EQ(budwood->sticks(3200, 2, 9, Any(0.15)), 920);
    EXPECT_EQ(budwood->sticks(3200, 2, 9, Any()), 800);
    EXPECT_EQ(budwood->sticks(3200, 2, 9, Any(rtl::OUString())), 800) << "an empty text means not given";
}

TEST(Component, MapsABadArgumentWithItsReason) {
    const auto budwood = component<XBudwood>();
    try {
        budwood->sticks(3200, 2, 9, Any(15.0));
        FAIL() << "85 for 0.85 must be refused";
    } catch (const css::lang::IllegalArgumentException& bad) {
        EXPECT_NE(to_utf8(bad.Message).find("15 % is 0.15"), std::string::npos);
    }
}

TEST(Component, ExplainsThroughWhy) {
    const auto support = component<XSupport>();
    const Document document(new FakeDocument({30, 12, 1899}));
    EXPECT_EQ(to_utf8(support->why(document, "sticks", row_of({Any(3200.0), Any(2.0), Any(9.0), Any(15.0)}))),
              "spare was 15: give a fraction from 0 to 2 (15 % is 0.15).");
    EXPECT_TRUE(support->why(document, "sticks", row_of({Any(3200.0), Any(2.0), Any(9.0)})).isEmpty());
}

TEST(Convert, DropsTheBlankRowsAtTheEndOfAColumn) {
    Block column(1000);
    for (auto& row : column) row = row_of({Any(rtl::OUString())});
    column.getArray()[0] = row_of({Any(3.0)});
    column.getArray()[2] = row_of({Any(rtl::OUString("tree"))});
    const Table table = to_table(column);
    EXPECT_EQ(table.rows(), 3U);
    EXPECT_EQ(table.blank_rows, 997U);
    EXPECT_TRUE(is_blank(table.at(1, 0)));
    EXPECT_EQ(std::get<std::string>(table.at(2, 0)), "tree");
}

TEST(Convert, ReadsTheNullDate) {
    EXPECT_EQ(null_date_of(new FakeDocument({1, 1, 1904})), Day{std::chrono::January / 1 / 1904});
    EXPECT_THROW(null_date_of({}), css::uno::RuntimeException);
}

TEST(Convert, GivesTablesRowByRow) {
    const Block block = to_block(Table(2, {1., std::string("a"), 2., Cell{}}));
    ASSERT_EQ(block.getLength(), 2);
    EXPECT_EQ(block[1][0], Any(2.0));
    EXPECT_EQ(block[1][1], Any(rtl::OUString()));
}

/// The glue as the component has it.
class OwnGlue final : public Glue {
  public:
    rtl::OUString SAL_CALL getImplementationName() override { return {}; }
    sal_Bool SAL_CALL supportsService(const rtl::OUString& /*name*/) override { return sal_False; }
    css::uno::Sequence<rtl::OUString> SAL_CALL getSupportedServiceNames() override { return {}; }
};

Any as_any(const catalogue::Value& value) {
    if (const auto* number = std::get_if<double>(&value)) return Any(*number);
    if (const auto* text = std::get_if<std::string>(&value)) return Any(to_ustring(*text));
    if (const auto* table = std::get_if<Table>(&value)) return Any(to_block(*table));
    return {};
}

/// Whether the host hands such a value over at all; what it does not, it refuses by itself.
bool is_handed_over(const catalogue::Parameter& parameter, const catalogue::Value& value) {
    switch (parameter.kind) {
        case catalogue::Kind::number:
        case catalogue::Kind::date:
            return std::holds_alternative<double>(value);
        case catalogue::Kind::text:
            return std::holds_alternative<std::string>(value);
        case catalogue::Kind::block:
            return std::holds_alternative<Table>(value);
        case catalogue::Kind::cells:
            return false;
        case catalogue::Kind::any:
        case catalogue::Kind::rest:
            break;
    }
    return true;
}

struct Seen {
    Any answer;
    std::string refusal;
};

Row as_row(const catalogue::Arguments& given) {
    Row row(static_cast<sal_Int32>(given.values.size()));
    std::transform(given.values.begin(), given.values.end(), row.getArray(), as_any);
    return row;
}

Seen from_glue(Glue& glue, const GlueCall& one, const Document& document, const Row& given) {
    try {
        return {one.call(glue, document, given), ""};
    } catch (const css::lang::IllegalArgumentException& bad) {
        return {{}, to_utf8(bad.Message)};
    }
}

Seen from_catalogue(const catalogue::FunctionEntry& entry, const catalogue::Arguments& given) {
    try {
        const catalogue::Outcome outcome = entry.call(given);
        if (const auto* text = std::get_if<std::string>(&outcome)) return {Any(to_ustring(*text)), ""};
        return {give<Any>(outcome), ""};
    } catch (const bad_argument& bad) {
        return {{}, bad.what()};
    }
}

TEST(Component, AnswersAndRefusesAsTheCatalogueDoesWhateverIsGiven) {
    const rtl::Reference<OwnGlue> glue(new OwnGlue);
    const Document document(new FakeDocument({30, 12, 1899}));
    int refused = 0;
    for (const GlueCall& one : glue_calls) {
        const catalogue::FunctionEntry& entry = *catalogue::find(one.method);
        const auto right = tests::parse(tests::right_call(entry)).arguments;
        for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
            for (const tests::Misuse& misuse : tests::misuses()) {
                if (!is_handed_over(entry.parameters[at], misuse.value)) continue;
                auto given = right;
                given.values[at] = misuse.value;
                const Seen cell = from_glue(*glue, one, document, as_row(given));
                const Seen why = from_catalogue(entry, given);
                EXPECT_EQ(cell.refusal, why.refusal) << tests::place_name(entry, at) << ", " << misuse.name;
                EXPECT_TRUE(cell.answer == why.answer) << tests::place_name(entry, at) << ", " << misuse.name;
                refused += cell.refusal.empty() ? 0 : 1;
            }
        }
    }
    EXPECT_GT(refused, 100);
}

/// One cell that a formula refers to, as A1 or as the range A1:A1.
struct OneCell {
    Cell holds;  ///< a text may be empty, as ="" is
    bool as_range;
};

/// What the host hands over for it to an argument of this kind, as measured in Calc (MisuseMatrix of ring three); void
/// where it does not call the function at all.
Any handed_over(const OneCell& cell, catalogue::Kind kind) {
    const auto* text = std::get_if<std::string>(&cell.holds);
    // A blank cell is the number 0 by itself and an empty text in a range.
    const Any blank = cell.as_range ? Any(rtl::OUString()) : Any(0.0);
    const Any value = is_blank(cell.holds) ? blank : to_any(cell.holds);
    const Row row = row_of({value});
    const Any one_by_one(Block(&row, 1));
    switch (kind) {
        case catalogue::Kind::number:
        case catalogue::Kind::date:
            if (is_blank(cell.holds)) return Any(0.0);
            if (text == nullptr) return value;
            return *text == "400" ? Any(400.0) : Any();
        case catalogue::Kind::text:
            return is_blank(cell.holds) ? Any(rtl::OUString()) : text != nullptr ? value : Any();
        case catalogue::Kind::block:
            return one_by_one;
        case catalogue::Kind::cells:
            return {};
        case catalogue::Kind::any:
        case catalogue::Kind::rest:
            break;
    }
    return cell.as_range ? one_by_one : value;
}

std::vector<OneCell> single_cells() {
    std::vector<OneCell> all;
    for (const Cell& holds :
         {Cell{}, Cell{""}, Cell{0.0}, Cell{1.0}, Cell{0.5}, Cell{46000.0}, Cell{"400"}, Cell{"Ana"}}) {
        all.push_back({holds, false});
        all.push_back({holds, true});
    }
    return all;
}

// Each argument of each function in turn is one cell, and then all of them are cells. WHY is handed its arguments as
// `rest` and must see what the call sees.
TEST(Component, RefusesACellWhereWhyHasAReason) {
    const rtl::Reference<OwnGlue> glue(new OwnGlue);
    const Document document(new FakeDocument({30, 12, 1899}));
    int compared = 0;
    for (const GlueCall& one : glue_calls) {
        const catalogue::FunctionEntry& entry = *catalogue::find(one.method);
        const auto right = tests::parse(tests::right_call(entry)).arguments;
        for (std::size_t at = 0; at < entry.arguments.size(); ++at) {
            for (const OneCell& cell : single_cells()) {
                const Any given = handed_over(cell, entry.parameters[at].kind);
                if (!given.hasValue()) continue;
                // The lists that go with a list become as long, so that it is not refused for its length alone.
                auto shorter = right;
                if (entry.parameters[at].kind == catalogue::Kind::block) {
                    for (auto& value : shorter.values) {
                        if (auto* table = std::get_if<Table>(&value); table != nullptr && table->columns == 1) {
                            table->cells.resize(1);
                        }
                    }
                }
                for (auto arguments : {right, shorter}) {
                    Row row = as_row(arguments);
                    row[static_cast<sal_Int32>(at)] = given;
                    arguments.values[at] = to_value(handed_over(cell, catalogue::Kind::rest));
                    const Seen shown = from_glue(*glue, one, document, row);
                    const Seen why = from_catalogue(entry, arguments);
                    const std::string where = tests::place_name(entry, at) + " is " + (cell.as_range ? "A1:A1" : "A1") +
                                              ", which holds case " + std::to_string(cell.holds.index());
                    EXPECT_EQ(shown.refusal.empty(), why.refusal.empty())
                        << where << ": " << shown.refusal << why.refusal;
                    EXPECT_TRUE(shown.answer == why.answer) << where;
                    ++compared;
                }
            }
        }
    }
    EXPECT_GT(compared, 2000);
}

}  // namespace
}  // namespace slipbark::addin
