// Keeps a component's object ready for the host's calls, which halves what a cell costs.
#pragma once

#include <uno/lbnames.h>
#include <com/sun/star/lang/XTypeProvider.hpp>
#include <com/sun/star/uno/XInterface.hpp>
#include <cppuhelper/weak.hxx>
#include <rtl/ref.hxx>
#include <uno/mapping.hxx>
#include <vector>

namespace slipbark::addin {

namespace css = com::sun::star;

/// The binary objects that stand for `object`, one for each of its interfaces.
///
/// Calc calls add-in functions through the host's reflection, which knows binary objects only: for every cell it has
/// the bridge make and register one that stands for the C++ object, calls it, and takes it away again. As long as
/// somebody keeps one, the bridge finds that one instead.
inline std::vector<void*> bridged(css::lang::XTypeProvider& object) {
    std::vector<void*> made;
    const css::uno::Mapping bridge(CPPU_CURRENT_LANGUAGE_BINDING_NAME, UNO_LB_UNO);
    if (!bridge.is()) return made;  // calls are slower, and right
    for (const auto& type : object.getTypes()) {
        const css::uno::Any face = object.queryInterface(type);
        made.push_back(bridge.mapInterface(*static_cast<css::uno::XInterface* const*>(face.getValue()), type));
    }
    return made;
}

/// The one object of a component without state, kept bridged; with a reference for the caller. Never taken away: what
/// stands for it must not outlive the bridge, and which of the two the host would end first is not said anywhere.
template <class Component>
css::uno::XInterface* the_only() {
    struct Kept {
        rtl::Reference<Component> object{new Component};
        std::vector<void*> stand_ins = bridged(*object);
    };
    static const Kept& only = *new Kept;
    only.object->acquire();
    return static_cast<cppu::OWeakObject*>(only.object.get());
}

}  // namespace slipbark::addin
