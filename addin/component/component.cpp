// The UNO component: the generated glue, and what every service must say of itself.

#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/supportsservice.hxx>

#include "component/bridged.hpp"
#include "component/speak.hpp"
#include "glue.hpp"

namespace slipbark::addin {

namespace {

class Rework final : public Glue {
  public:
    rtl::OUString SAL_CALL getImplementationName() override { return "slipbark.ReworkComponent"; }
    sal_Bool SAL_CALL supportsService(const rtl::OUString& name) override { return cppu::supportsService(this, name); }
    css::uno::Sequence<rtl::OUString> SAL_CALL getSupportedServiceNames() override {
        const rtl::OUString own = "slipbark.Rework";
        return {&own, 1};
    }
};

}  // namespace

}  // namespace slipbark::addin

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* slipbark_rework(
    com::sun::star::uno::XComponentContext* context,
    const com::sun::star::uno::Sequence<com::sun::star::uno::Any>& /*arguments*/) {
    slipbark::addin::speak_as_the_office(context);
    return slipbark::addin::the_only<slipbark::addin::Rework>();
}
