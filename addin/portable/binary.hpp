// Objects of binary UNO: plain C structs and function pointers, which are the same whatever compiler built the office.
//
// The C++ classes of values (Any, Sequence, OUString, the structs) are used all the same: they hold nothing but the
// binary value, and their inline members call C functions. Not to be used are their interfaces (Reference, and an Any
// that holds one), whose virtual tables are laid out as the office's own compiler has it.
#pragma once

#include <typelib/typedescription.h>
#include <uno/any2.h>
#include <uno/dispatcher.h>
#include <com/sun/star/uno/Any.hxx>
#include <com/sun/star/uno/Sequence.hxx>
#include <cstddef>
#include <functional>
#include <initializer_list>
#include <memory>
#include <new>
#include <rtl/ustring.hxx>
#include <stdexcept>
#include <typelib/typedescription.hxx>
#include <utility>
#include <vector>

namespace slipbark::portable {

namespace css = com::sun::star;

// What the office and this library must lay out alike. They are built by different compilers; the offsets are those of
// the headers' structs with members aligned to their size.
static_assert(sizeof(void*) == 8 && sizeof(sal_Int32) == 4 && sizeof(sal_Unicode) == 2);
static_assert(sizeof(css::uno::Any) == 24 && offsetof(uno_Any, pData) == 8 && offsetof(uno_Any, pReserved) == 16);
static_assert(sizeof(rtl::OUString) == 8 && offsetof(rtl_uString, length) == 4 && offsetof(rtl_uString, buffer) == 8);
static_assert(sizeof(css::uno::Sequence<css::uno::Any>) == 8);
static_assert(offsetof(uno_Sequence, nElements) == 4 && offsetof(uno_Sequence, elements) == 8);
static_assert(sizeof(uno_Interface) == 24 && offsetof(uno_Interface, release) == 8);
static_assert(offsetof(uno_Interface, pDispatcher) == 16);
static_assert(sizeof(typelib_TypeClass) == 4 && offsetof(typelib_TypeDescriptionReference, eTypeClass) == 8);
static_assert(offsetof(typelib_TypeDescriptionReference, pTypeName) == 16);
static_assert(sizeof(typelib_TypeDescription) == 80);
static_assert(offsetof(typelib_InterfaceMemberTypeDescription, nPosition) == 80);

/// A method of an object: puts its result into raw memory, where the caller destroys it. May throw bad_argument and
/// what is derived from std::exception.
using Method = std::function<void(void* result, void* const* arguments)>;

class Object;

/// One interface of an object, with the methods that it has beside XInterface's, in the order of its description.
struct Face : uno_Interface {
    Face(Object& of, const char* name, std::vector<Method> has);

    Object& object;
    css::uno::Type type;
    std::vector<Method> methods;
};

/// An object that lives as long as the process, so that nobody needs to count who holds it.
class Object {
  public:
    Object() = default;
    Object(const Object&) = delete;
    Object& operator=(const Object&) = delete;

    /// Adds an interface. All are there before the object is handed out.
    void add(const char* name, std::vector<Method> methods);
    [[nodiscard]] Face* first() const { return faces_.front().get(); }
    /// The interface of this type; XInterface is the first one, always; nullptr where there is none.
    Face* find(const css::uno::Type& type);
    [[nodiscard]] css::uno::Sequence<css::uno::Type> types() const;

  private:
    std::vector<std::unique_ptr<Face>> faces_;
};

/// Calls a method, "com.sun.star.lang.XServiceInfo::supportsService", of somebody's interface. Throws
/// std::runtime_error where the method signals an exception or is not known.
void call(uno_Interface* object, const char* method, void* result, std::initializer_list<const void*> arguments);

template <class Result>
Result call(uno_Interface* object, const char* method, std::initializer_list<const void*> arguments) {
    // NOLINTNEXTLINE(bugprone-sizeof-expression): where it is a pointer, a pointer's size is meant
    alignas(Result) std::byte memory[sizeof(Result)];
    call(object, method, memory, arguments);
    auto* const answer = std::launder(reinterpret_cast<Result*>(memory));
    Result value = std::move(*answer);
    answer->~Result();
    return value;
}

/// Somebody's interface, held.
class Held {
  public:
    explicit Held(uno_Interface* object) : object_(object) {
        if (object == nullptr) throw std::runtime_error("no such object");
    }
    Held(const Held&) = delete;
    Held& operator=(const Held&) = delete;
    ~Held() { object_->release(object_); }
    /// Another interface of the same object.
    [[nodiscard]] uno_Interface* as(const char* name) const;
    [[nodiscard]] uno_Interface* get() const { return object_; }

  private:
    uno_Interface* object_;
};

}  // namespace slipbark::portable
