// The component once more, in binary UNO and without its menu's commands: for an office whose C++ is another
// compiler's than ours. Every method is called through the catalogue, as WHY calls it; nothing is generated.

#include <com/sun/star/util/Date.hpp>

#include "catalogue/catalogue.hpp"
#include "catalogue/language.hpp"
#include "component/convert.hpp"
#include "portable/binary.hpp"

namespace slipbark::portable {

namespace {

using addin::Block;
using addin::Row;
using addin::to_value;
using catalogue::FunctionEntry;
using catalogue::Gives;
using catalogue::Kind;
using css::uno::Any;
using rtl::OUString;

template <class T>
const T& as(const void* given) {
    return *static_cast<const T*>(given);
}

Day null_date_of(uno_Interface* document) {
    static const OUString name("NullDate");
    if (document == nullptr) throw std::runtime_error("there is no document");
    css::util::Date date;
    if (!(call<Any>(document, "com.sun.star.beans.XPropertySet::getPropertyValue", {&name}) >>= date)) {
        throw std::runtime_error("the document has no null date");
    }
    return addin::to_day(date);
}

/// Cells of the sheet, as long as the call lasts.
catalogue::Value cells_of(uno_Interface* range) {
    return catalogue::SheetCells{[range] {
                                     range->acquire(range);
                                     const Held cells(range);
                                     const Held data(cells.as("com.sun.star.sheet.XCellRangeData"));
                                     return addin::to_sheet_cells(call<Block>(
                                         data.get(), "com.sun.star.sheet.XCellRangeData::getDataArray", {}));
                                 },
                                 {}};
}

catalogue::Value value_of(Kind kind, const void* given) {
    switch (kind) {
        case Kind::number:
        case Kind::date:
            return as<double>(given);
        case Kind::text:
            return to_value(as<OUString>(given));
        case Kind::block:
            return to_value(as<Block>(given));
        case Kind::cells:
            return cells_of(as<uno_Interface*>(given));
        case Kind::any:
            return to_value(as<Any>(given));
        case Kind::rest:
            break;
    }
    throw std::logic_error("the rest of the arguments is no value");
}

catalogue::Arguments arguments_of(const FunctionEntry& entry, void* const* given) {
    catalogue::Arguments arguments{{}, {}};
    if (entry.needs_document) arguments.null_date = null_date_of(as<uno_Interface*>(*given++));
    arguments.values.reserve(entry.parameters.size());
    for (const catalogue::Parameter& parameter : entry.parameters) {
        const void* one = *given++;
        if (parameter.kind == Kind::rest) {
            for (const Any& any : as<Row>(one)) arguments.values.push_back(to_value(any));
        } else {
            arguments.values.push_back(value_of(parameter.kind, one));
        }
    }
    return arguments;
}

template <class Host>
void put(void* result, const catalogue::Outcome& outcome) {
    // The global new: a Sequence has one of its own.
    ::new (result) Host(addin::give<Host>(outcome));
}

void put_as(Gives gives, void* result, const catalogue::Outcome& outcome) {
    switch (gives) {
        case Gives::number:
        case Gives::date:
            return put<double>(result, outcome);
        case Gives::text:
            return put<OUString>(result, outcome);
        case Gives::table:
            return put<Block>(result, outcome);
        case Gives::maybe_number:
        case Gives::maybe_date:
        case Gives::maybe_table:
            return put<Any>(result, outcome);
    }
}

Method method_of(const FunctionEntry& entry) {
    return [&entry](void* result, void* const* given) {
        put_as(entry.gives, result, entry.call(arguments_of(entry, given)));
    };
}

/// What the office asks of each object, to see what it is.
void introduce(Object& object, const char* implementation, const char* service) {
    object.add("com.sun.star.lang.XServiceInfo",
               {[=](void* result, void* const*) { ::new (result) OUString(OUString::createFromAscii(implementation)); },
                [=](void* result, void* const* given) {
                    ::new (result) sal_Bool(as<OUString>(given[0]).equalsAscii(service));
                },
                [=](void* result, void* const*) {
                    const OUString name = OUString::createFromAscii(service);
                    ::new (result) css::uno::Sequence<OUString>(&name, 1);
                }});
    object.add("com.sun.star.lang.XTypeProvider",
               {[&](void* result, void* const*) { ::new (result) css::uno::Sequence<css::uno::Type>(object.types()); },
                [](void* result, void* const*) { ::new (result) css::uno::Sequence<sal_Int8>(); }});
}

Object& rework() {
    static Object& only = *[] {
        auto* made = new Object;
        introduce(*made, "slipbark.ReworkComponent", "slipbark.Rework");
        for (const catalogue::Area& area : catalogue::areas()) {
            std::vector<Method> methods;
            for (const FunctionEntry& entry : area.entries) methods.push_back(method_of(entry));
            made->add(("slipbark." + area.interface_name()).c_str(), std::move(methods));
        }
        return made;
    }();
    return only;
}

/// The tag of the language that the office shows, as addin/component asks for it.
std::string office_language(uno_Interface* context) {
    const OUString service("com.sun.star.configuration.ReadOnlyAccess");
    const OUString setting("/org.openoffice.Setup/L10N/ooLocale");
    const Any every_locale{OUString("*")};
    const Row arguments(&every_locale, 1);
    const Held manager(call<uno_Interface*>(context, "com.sun.star.uno.XComponentContext::getServiceManager", {}));
    const Held access(call<uno_Interface*>(
        manager.get(), "com.sun.star.lang.XMultiComponentFactory::createInstanceWithArgumentsAndContext",
        {&service, &arguments, &context}));
    const Held settings(access.as("com.sun.star.container.XHierarchicalNameAccess"));
    OUString tag;
    call<Any>(settings.get(), "com.sun.star.container.XHierarchicalNameAccess::getByHierarchicalName", {&setting}) >>=
        tag;
    return addin::to_utf8(tag);
}

void speak_as_the_office(uno_Interface* context) {
    static const bool once = [&] {
        try {
            if (context != nullptr) catalogue::speak(catalogue::language_for(office_language(context)));
        } catch (const std::runtime_error&) {
            // An office that does not say is no reason to leave cells without functions.
        }
        return true;
    }();
    static_cast<void>(once);
}

void put_rework(void* result, void* const* given) {
    speak_as_the_office(as<uno_Interface*>(given[0]));
    *static_cast<uno_Interface**>(result) = rework().first();
}

/// Makes the component's object. Both its methods begin and end alike: arguments mean nothing to us.
Object& factory() {
    static Object& only = *[] {
        auto* made = new Object;
        made->add("com.sun.star.lang.XSingleComponentFactory",
                  {put_rework, [](void* result, void* const* given) { put_rework(result, given + 1); }});
        introduce(*made, "slipbark.ReworkComponent", "slipbark.Rework");
        return made;
    }();
    return only;
}

}  // namespace

}  // namespace slipbark::portable

/// What the office's loader calls. A constructor, as the other component has, would make Calc abort: the loader does
/// not map it from binary UNO.
extern "C" SAL_DLLPUBLIC_EXPORT void* slipbark_component_getFactory(const char* /*implementation*/,
                                                                    void* /*service_manager*/, void* /*registry*/) {
    return slipbark::portable::factory().first();
}
