// The commands behind the menu: which function carries out which, and what the office asks of a protocol handler.
//
// A command is a URL slipbark:name; ProtocolHandler.xcu sends it here. With the argument Silent = true a command shows
// no window and gives its text back in the result, which is how tests and scripts use it; a command that writes a file
// takes its place from the argument URL instead of asking for it. A name that is no command does nothing and says so.

#include "component/commands.hpp"

#include <algorithm>
#include <com/sun/star/awt/MessageBoxButtons.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XMessageBoxFactory.hpp>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XNotifyingDispatch.hpp>
#include <com/sun/star/lang/XInitialization.hpp>
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/util/URL.hpp>
#include <cppuhelper/implbase4.hxx>
#include <cppuhelper/supportsservice.hxx>

#include "catalogue/language.hpp"
#include "component/command.hpp"
#include "component/speak.hpp"

namespace slipbark::addin {

using css::uno::Any;
using css::uno::Reference;
using css::uno::UNO_QUERY;

namespace {

struct CarriedOutBy {
    std::string_view name;
    Done (*function)(const Sent& sent);
};

constexpr std::array table{
    CarriedOutBy{explain_cell.name, explain_selection},    CarriedOutBy{empty_the_form.name, empty_form},
    CarriedOutBy{add_more_lines.name, add_lines},          CarriedOutBy{go_to_free_line.name, first_free_line},
    CarriedOutBy{keep_plan.name, keep_the_plan},           CarriedOutBy{hand_season.name, hand_to_records},
    CarriedOutBy{take_over.name, take_over_plan},          CarriedOutBy{arrange_the_seasons.name, arrange_seasons},
    CarriedOutBy{copy_with_values.name, save_with_values}, CarriedOutBy{keep_house.name, keep_house_defaults},
    CarriedOutBy{show_house.name, show_house_defaults},    CarriedOutBy{save_house.name, save_house_defaults},
    CarriedOutBy{take_house.name, take_house_defaults},    CarriedOutBy{gather_the_workbooks.name, gather_workbooks},
    CarriedOutBy{client_pages.name, write_client_pages},   CarriedOutBy{keep_tables.name, keep_in_database},
    CarriedOutBy{share_desk.name, save_without_names},     CarriedOutBy{show_guide.name, open_guide},
    CarriedOutBy{tell_about.name, about_slipbark},
};
static_assert(std::ranges::equal(table, commands, {}, &CarriedOutBy::name, &Command::name),
              "each command of the menu is carried out, in the menu's order");

Done carry_out(const Sent& sent) {
    if (sent.name.starts_with(new_from)) return new_workbook(sent);
    const auto* const found = std::ranges::find(table, sent.name, &CarriedOutBy::name);
    return found == table.end() ? no_such_command(sent) : found->function(sent);
}

class Commands final : public cppu::WeakImplHelper4<css::lang::XInitialization, css::lang::XServiceInfo,
                                                    css::frame::XDispatchProvider, css::frame::XNotifyingDispatch> {
  public:
    explicit Commands(const Reference<css::uno::XComponentContext>& context) : context_(context) {}

    void SAL_CALL initialize(const css::uno::Sequence<Any>& arguments) override {
        if (arguments.hasElements()) arguments[0] >>= frame_;
    }

    rtl::OUString SAL_CALL getImplementationName() override { return "slipbark.CommandsComponent"; }
    sal_Bool SAL_CALL supportsService(const rtl::OUString& name) override { return cppu::supportsService(this, name); }
    css::uno::Sequence<rtl::OUString> SAL_CALL getSupportedServiceNames() override {
        const rtl::OUString all[] = {"slipbark.Commands", "com.sun.star.frame.ProtocolHandler"};
        return {all, 2};
    }

    Reference<css::frame::XDispatch> SAL_CALL queryDispatch(const css::util::URL& url, const rtl::OUString& /*target*/,
                                                            sal_Int32 /*flags*/) override {
        // Any name is taken: one that is no command is told so when it is sent.
        return to_utf8(url.Complete).starts_with(protocol) ? this : nullptr;
    }
    css::uno::Sequence<Reference<css::frame::XDispatch>> SAL_CALL
    queryDispatches(const css::uno::Sequence<css::frame::DispatchDescriptor>& requests) override {
        css::uno::Sequence<Reference<css::frame::XDispatch>> found(requests.getLength());
        for (sal_Int32 at = 0; at < requests.getLength(); ++at) {
            found.getArray()[at] =
                queryDispatch(requests[at].FeatureURL, requests[at].FrameName, requests[at].SearchFlags);
        }
        return found;
    }

    void SAL_CALL dispatch(const css::util::URL& url,
                           const css::uno::Sequence<css::beans::PropertyValue>& arguments) override {
        run(url, arguments);
    }
    void SAL_CALL dispatchWithNotification(const css::util::URL& url,
                                           const css::uno::Sequence<css::beans::PropertyValue>& arguments,
                                           const Reference<css::frame::XDispatchResultListener>& listener) override {
        const Done result = run(url, arguments);
        if (!listener.is()) return;
        css::frame::DispatchResultEvent done;
        done.Source = static_cast<cppu::OWeakObject*>(this);
        done.State =
            result.carried_out ? css::frame::DispatchResultState::SUCCESS : css::frame::DispatchResultState::FAILURE;
        done.Result <<= to_ustring(result.text);
        listener->dispatchFinished(done);
    }

    // No command has a state to tell of: they are always there.
    void SAL_CALL addStatusListener(const Reference<css::frame::XStatusListener>& /*listener*/,
                                    const css::util::URL& /*url*/) override {}
    void SAL_CALL removeStatusListener(const Reference<css::frame::XStatusListener>& /*listener*/,
                                       const css::util::URL& /*url*/) override {}

  private:
    Done run(const css::util::URL& url, const css::uno::Sequence<css::beans::PropertyValue>& arguments) {
        Sent sent{
            .context = context_, .frame = frame_, .name = to_utf8(url.Complete).substr(protocol.size()), .url = {}};
        for (const auto& argument : arguments) {
            if (argument.Name == "Silent") argument.Value >>= sent.silent;
            if (argument.Name == "URL") argument.Value >>= sent.url;
        }
        Done done = carry_out(sent);
        if (!sent.silent && done.worth_a_window) show(done.text);
        return done;
    }

    void show(const std::string& text) {
        const Reference<css::awt::XMessageBoxFactory> toolkit(css::awt::Toolkit::create(context_), UNO_QUERY);
        const Reference<css::awt::XWindowPeer> parent(frame_->getContainerWindow(), UNO_QUERY);
        if (!toolkit.is() || !parent.is()) return;
        const auto box =
            toolkit->createMessageBox(parent, css::awt::MessageBoxType_INFOBOX, css::awt::MessageBoxButtons::BUTTONS_OK,
                                      "Slipbark", to_ustring(text));
        if (box.is()) box->execute();
    }

    Reference<css::uno::XComponentContext> context_;
    Reference<css::frame::XFrame> frame_;
};

}  // namespace

Done no_such_command(const Sent& sent) {
    return {.text = catalogue::menu_language().translated(
                translatable("Slipbark has no command \"{1}\". The menu Rework lists its commands."), {sent.name}),
            .carried_out = false};
}

rtl::OUString extension_folder(const Reference<css::uno::XComponentContext>& context) {
    return css::deployment::PackageInformationProvider::get(context)->getPackageLocation("slipbark.rework");
}

}  // namespace slipbark::addin

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* slipbark_commands(
    com::sun::star::uno::XComponentContext* context,
    const com::sun::star::uno::Sequence<com::sun::star::uno::Any>& /*arguments*/) {
    slipbark::addin::speak_as_the_office(context);
    auto* made = new slipbark::addin::Commands(context);  // the caller takes over the one reference
    made->acquire();
    return static_cast<cppu::OWeakObject*>(made);
}
