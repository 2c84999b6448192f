// A screen that nobody sees, and the dialogs that an office shows on it.
#pragma once

#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <com/sun/star/accessibility/AccessibleRole.hpp>
#include <com/sun/star/accessibility/AccessibleStateType.hpp>
#include <com/sun/star/accessibility/XAccessible.hpp>
#include <com/sun/star/accessibility/XAccessibleAction.hpp>
#include <com/sun/star/accessibility/XAccessibleStateSet.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XExtendedToolkit.hpp>
#include <csignal>
#include <cstdlib>
#include <functional>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

#include "office/office.hpp"

namespace slipbark::tests {

namespace css = com::sun::star;

/// An X server without a monitor, for the offices that are started while it lives.
class Screen {
  public:
    Screen() {
        int ends[2] = {};
        if (pipe(ends) != 0) throw std::runtime_error("no pipe");
        process_ = fork();
        if (process_ == 0) {
            prctl(PR_SET_PDEATHSIG, SIGTERM);  // not to outlive this program, however that ends
            const std::string end = std::to_string(ends[1]);
            execlp("Xvfb", "Xvfb", "-displayfd", end.c_str(), "-screen", "0", "1280x900x24", "-nolisten", "tcp",
                   static_cast<char*>(nullptr));
            _exit(127);
        }
        close(ends[1]);
        // It writes the number of its display, which is free, once it is ready; nothing where it ends.
        std::string number;
        for (char digit = 0; ::read(ends[0], &digit, 1) == 1 && digit != '\n';) number += digit;
        close(ends[0]);
        if (number.empty()) throw std::runtime_error("Xvfb does not start: ./setup view installs it");
        setenv("DISPLAY", (":" + number).c_str(), 1);
        setenv("SAL_USE_VCLPLUGIN", "gen", 1);  // the one that needs no desktop's libraries
    }
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;
    ~Screen() {
        unsetenv("DISPLAY");
        unsetenv("SAL_USE_VCLPLUGIN");
        kill(process_, SIGTERM);
        waitpid(process_, nullptr, 0);
    }

  private:
    pid_t process_ = -1;
};

using Accessible = css::uno::Reference<css::accessibility::XAccessibleContext>;

/// The button of that name in or below `within`.
inline Accessible button(const Accessible& within, const std::string& name) {
    using namespace css::accessibility;
    if (within->getAccessibleRole() == AccessibleRole::PUSH_BUTTON &&
        office::utf8(within->getAccessibleName()) == name) {
        return within;
    }
    for (sal_Int32 at = 0; at < within->getAccessibleChildCount(); ++at) {
        const auto child = within->getAccessibleChild(at);
        if (!child.is()) continue;
        if (auto found = button(child->getAccessibleContext(), name); found.is()) return found;
    }
    return {};
}

/// What a screen reader reads of it.
inline std::string words_of(const Accessible& within) {
    std::string words = office::utf8(within->getAccessibleName()) + "\n";
    for (sal_Int32 at = 0; at < within->getAccessibleChildCount(); ++at) {
        const auto child = within->getAccessibleChild(at);
        if (child.is()) words += words_of(child->getAccessibleContext());
    }
    return words;
}

// The host marks its list of windows as deprecated and offers nothing in its place.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wdeprecated-declarations"

/// The dialogs and messages that the office shows.
inline std::vector<Accessible> dialogs(const office::Office& office) {
    using namespace css::accessibility;
    using css::uno::UNO_QUERY;
    const css::uno::Reference<css::awt::XExtendedToolkit> toolkit(office.create("com.sun.star.awt.Toolkit"),
                                                                  css::uno::UNO_QUERY_THROW);
    std::vector<Accessible> found;
    for (sal_Int32 at = 0; at < toolkit->getTopWindowCount(); ++at) {
        const css::uno::Reference<XAccessible> window(toolkit->getTopWindow(at), UNO_QUERY);
        if (!window.is()) continue;
        const auto context = window->getAccessibleContext();
        if (!context.is()) continue;
        const auto role = context->getAccessibleRole();
        const css::uno::Reference<XAccessibleStateSet> states(context->getAccessibleStateSet());
        if (!states.is() || !states->contains(AccessibleStateType::SHOWING)) continue;  // closed, and not gone yet
        if (role == AccessibleRole::DIALOG || role == AccessibleRole::ALERT || role == AccessibleRole::OPTION_PANE) {
            found.push_back(context);
        }
    }
    return found;
}

#pragma GCC diagnostic pop

/// Presses a dialog's button, as a screen reader does. False where it has none of that name.
inline bool press(const Accessible& dialog, const std::string& name) {
    const css::uno::Reference<css::accessibility::XAccessibleAction> action(button(dialog, name), css::uno::UNO_QUERY);
    if (action.is()) action->doAccessibleAction(0);
    return action.is();
}

/// The same in whatever dialog shows the button. False where there is none yet.
inline bool press(const office::Office& office, const std::string& name) {
    const auto all = dialogs(office);
    return std::any_of(all.begin(), all.end(), [&](const Accessible& dialog) { return press(dialog, name); });
}

inline bool within(std::chrono::seconds patience, const std::function<bool()>& done) {
    const auto deadline = std::chrono::steady_clock::now() + patience;
    while (!done()) {
        if (std::chrono::steady_clock::now() > deadline) return false;
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
    }
    return true;
}

}  // namespace slipbark::tests
