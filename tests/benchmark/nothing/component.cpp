// The do-nothing add-in: the twins of the cell functions, and floors of the host. Only ever loaded by the benchmarks.

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/table/CellRangeAddress.hpp>
#include <com/sun/star/table/XCellRange.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <com/sun/star/util/Date.hpp>
#include <cppuhelper/implbase2.hxx>
#include <cppuhelper/supportsservice.hxx>
#include <slipbarknothing/XFloors.hpp>

namespace slipbark::nothing {

namespace css = com::sun::star;
using Document = css::uno::Reference<css::beans::XPropertySet>;
using Row = css::uno::Sequence<css::uno::Any>;
using Block = css::uno::Sequence<Row>;
using CellRange = css::uno::Reference<css::table::XCellRange>;

/// The answer of every twin, as the type of its function.
template <class Host>
Host fixed() {
    static const Host answer = [] {
        if constexpr (std::is_same_v<Host, double>) return 1.0;
        if constexpr (std::is_same_v<Host, rtl::OUString>) return rtl::OUString("x");
        if constexpr (std::is_same_v<Host, css::uno::Any>) return css::uno::Any(1.0);
        if constexpr (std::is_same_v<Host, Block>) {
            const css::uno::Any cell(1.0);
            const Row row(&cell, 1);
            return Block(&row, 1);
        }
    }();
    return answer;
}

}  // namespace slipbark::nothing

#include "component/bridged.hpp"
#include "twins.hpp"

namespace slipbark::nothing {

namespace {

css::uno::Sequence<rtl::OUString> one_name(const char* name) {
    const rtl::OUString text = rtl::OUString::createFromAscii(name);
    return {&text, 1};
}

/// What every service must say of itself.
template <class Base, const char* service>
class Served : public Base {
  public:
    rtl::OUString SAL_CALL getImplementationName() override {
        return rtl::OUString::createFromAscii(service) + "Component";
    }
    sal_Bool SAL_CALL supportsService(const rtl::OUString& name) override { return cppu::supportsService(this, name); }
    css::uno::Sequence<rtl::OUString> SAL_CALL getSupportedServiceNames() override { return one_name(service); }
};

constexpr char nothing_service[] = "slipbark.Nothing";
constexpr char kept_service[] = "slipbark.Kept";
constexpr char floors_service[] = "slipbark.Floors";

using Nothing = Served<Glue, nothing_service>;
using Kept = Served<Glue, kept_service>;

class Floors final
    : public Served<cppu::WeakImplHelper2<::slipbarknothing::XFloors, css::lang::XServiceInfo>, floors_service> {
  public:
    double SAL_CALL nullDate(const Document& document, double day) override {
        css::util::Date date;
        document->getPropertyValue("NullDate") >>= date;
        return day + date.Day;
    }
    double SAL_CALL reference(const css::uno::Reference<css::table::XCellRange>& /*cells*/) override { return 1; }
    double SAL_CALL none() override { return 1; }
    double SAL_CALL four(double /*a*/, double /*b*/, double /*c*/, double /*d*/) override { return 1; }
    double SAL_CALL numbers(const css::uno::Sequence<css::uno::Sequence<double>>& /*cells*/) override { return 1; }
    /// The rows of a range down to the last that is used in its sheet, to hand on to a function that takes a range.
    Block SAL_CALL used(const css::uno::Reference<css::table::XCellRange>& cells) override {
        const css::uno::Reference<css::sheet::XSheetCellRange> in_sheet(cells, css::uno::UNO_QUERY_THROW);
        const auto cursor = in_sheet->getSpreadsheet()->createCursor();
        const css::uno::Reference<css::sheet::XUsedAreaCursor> end(cursor, css::uno::UNO_QUERY_THROW);
        end->gotoEndOfUsedArea(false);
        const auto address = [](const auto& range) {
            return css::uno::Reference<css::sheet::XCellRangeAddressable>(range, css::uno::UNO_QUERY_THROW)
                ->getRangeAddress();
        };
        const auto whole = address(cells);
        const auto last = std::clamp(address(cursor).EndRow, whole.StartRow, whole.EndRow);
        const auto part =
            cells->getCellRangeByPosition(0, 0, whole.EndColumn - whole.StartColumn, last - whole.StartRow);
        return css::uno::Reference<css::sheet::XCellRangeData>(part, css::uno::UNO_QUERY_THROW)->getDataArray();
    }
};

template <class Component>
css::uno::XInterface* made() {
    auto* component = new Component;  // the caller takes over the one reference
    component->acquire();
    return static_cast<cppu::OWeakObject*>(component);
}

}  // namespace

}  // namespace slipbark::nothing

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* slipbark_nothing(
    com::sun::star::uno::XComponentContext* /*context*/,
    const com::sun::star::uno::Sequence<com::sun::star::uno::Any>& /*arguments*/) {
    return slipbark::nothing::made<slipbark::nothing::Nothing>();
}

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* slipbark_kept(
    com::sun::star::uno::XComponentContext* /*context*/,
    const com::sun::star::uno::Sequence<com::sun::star::uno::Any>& /*arguments*/) {
    return slipbark::addin::the_only<slipbark::nothing::Kept>();
}

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* slipbark_floors(
    com::sun::star::uno::XComponentContext* /*context*/,
    const com::sun::star::uno::Sequence<com::sun::star::uno::Any>& /*arguments*/) {
    return slipbark::nothing::made<slipbark::nothing::Floors>();
}
