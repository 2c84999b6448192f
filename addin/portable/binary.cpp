#include "portable/binary.hpp"

#include <com/sun/star/lang/IllegalArgumentException.hpp>
#include <com/sun/star/uno/RuntimeException.hpp>

#include "component/convert.hpp"

namespace slipbark::portable {

namespace {

css::uno::Type interface_type(const char* name) {
    return {css::uno::TypeClass_INTERFACE, rtl::OUString::createFromAscii(name)};
}

/// An Any that holds an interface, or nothing, in raw memory.
void put_interface(uno_Any* any, Face* face) {
    void* held = face;
    if (face == nullptr) {
        uno_any_construct(any, nullptr, nullptr, nullptr);
    } else {
        uno_type_any_construct(any, &held, face->type.getTypeLibType(), nullptr);
    }
}

extern "C" {

static void SAL_CALL acquire(uno_Interface* /*face*/) {}
static void SAL_CALL release(uno_Interface* /*face*/) {}

static void SAL_CALL dispatch(uno_Interface* called, const typelib_TypeDescription* member, void* result,
                              void** arguments, uno_Any** thrown) {
    auto& face = *static_cast<Face*>(called);
    const auto place = reinterpret_cast<const typelib_InterfaceMemberTypeDescription*>(member)->nPosition;
    uno_Any* const failure = *thrown;
    try {
        // The first three of each interface: queryInterface, acquire, release.
        if (place == 0) {
            put_interface(static_cast<uno_Any*>(result),
                          face.object.find(*static_cast<const css::uno::Type*>(arguments[0])));
        } else if (place >= 3) {
            face.methods.at(static_cast<std::size_t>(place) - 3)(result, arguments);
        }
        *thrown = nullptr;
    } catch (const bad_argument& bad) {
        ::new (failure) css::uno::Any(css::lang::IllegalArgumentException(addin::to_ustring(bad.what()), {}, 0));
    } catch (const std::exception& fault) {
        ::new (failure) css::uno::Any(css::uno::RuntimeException(addin::to_ustring(fault.what()), {}));
    }
}

}  // extern "C"

}  // namespace

Face::Face(Object& of, const char* name, std::vector<Method> has)
    : uno_Interface{&portable::acquire, &portable::release, &portable::dispatch},
      object(of),
      type(interface_type(name)),
      methods(std::move(has)) {}

void Object::add(const char* name, std::vector<Method> methods) {
    faces_.push_back(std::make_unique<Face>(*this, name, std::move(methods)));
}

Face* Object::find(const css::uno::Type& type) {
    if (type == interface_type("com.sun.star.uno.XInterface")) return first();
    const auto found = std::ranges::find_if(faces_, [&](const auto& face) { return face->type == type; });
    return found == faces_.end() ? nullptr : found->get();
}

css::uno::Sequence<css::uno::Type> Object::types() const {
    css::uno::Sequence<css::uno::Type> all(static_cast<sal_Int32>(faces_.size()));
    std::ranges::transform(faces_, all.getArray(), [](const auto& face) { return face->type; });
    return all;
}

void call(uno_Interface* object, const char* method, void* result, std::initializer_list<const void*> arguments) {
    const css::uno::TypeDescription description(rtl::OUString::createFromAscii(method));
    if (!description.is()) throw std::runtime_error(std::string("the office does not know ") + method);
    std::vector<void*> places;
    for (const void* argument : arguments) places.push_back(const_cast<void*>(argument));
    uno_Any space;
    uno_Any* thrown = &space;
    object->pDispatcher(object, description.get(), result, places.data(), &thrown);
    if (thrown == nullptr) return;
    uno_any_destruct(thrown, nullptr);
    throw std::runtime_error(std::string("the office refused ") + method);
}

uno_Interface* Held::as(const char* name) const {
    const css::uno::Type type = interface_type(name);
    uno_Any found;
    call(object_, "com.sun.star.uno.XInterface::queryInterface", &found, {&type});
    uno_Interface* face = nullptr;
    if (found.pType->eTypeClass == typelib_TypeClass_INTERFACE) {
        face = *static_cast<uno_Interface**>(found.pData);
        face->acquire(face);
    }
    uno_any_destruct(&found, nullptr);
    return face;
}

}  // namespace slipbark::portable
