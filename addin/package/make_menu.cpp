// Writes Addons.xcu, the menu of our own in spreadsheets: the workbooks of the registry, then the commands.

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <exception>
#include <iostream>
#include <stdexcept>
#include <string>
#include <string_view>

#include "component/commands.hpp"
#include "workbooks/registry.hpp"

namespace {

using slipbark::Text;
using Tree = boost::property_tree::ptree;

constexpr const char* spreadsheets = "com.sun.star.sheet.SpreadsheetDocument";

/// A new last node of that name.
Tree& node(Tree& parent, const std::string& name, const char* operation = nullptr) {
    Tree& made = parent.add_child("node", Tree());
    made.put("<xmlattr>.oor:name", name);
    if (operation != nullptr) made.put("<xmlattr>.oor:op", operation);
    return made;
}

Tree& property(Tree& parent, const char* name, const std::string& text) {
    Tree& made = parent.add_child("prop", Tree());
    made.put("<xmlattr>.oor:name", name);
    return made.add("value", text);
}

void title(Tree& parent, Text text) {
    property(parent, "Title", std::string(text.english())).put("<xmlattr>.xml:lang", "en");
}

class Menu {
  public:
    explicit Menu(Tree& items) : items_(items) {}

    void command(const std::string& name, Text shown) {
        Tree& made = item();
        property(made, "URL", std::string(slipbark::addin::protocol) + name);
        title(made, shown);
        property(made, "Target", "_self");
        property(made, "Context", spreadsheets);
    }
    void separator() { property(item(), "URL", "private:separator"); }

  private:
    /// The host shows items in the order of their names, so those have two digits.
    Tree& item() {
        const std::string number = std::to_string(++count_);
        return node(items_, (count_ < 10 ? "m0" : "m") + number, "replace");
    }

    Tree& items_;
    int count_ = 0;
};

Tree addons() {
    Tree whole;
    Tree& root = whole.add_child("oor:component-data", Tree());
    root.put("<xmlattr>.xmlns:oor", "http://openoffice.org/2001/registry");
    root.put("<xmlattr>.xmlns:xs", "http://www.w3.org/2001/XMLSchema");
    root.put("<xmlattr>.oor:name", "Addons");
    root.put("<xmlattr>.oor:package", "org.openoffice.Office");
    Tree& top = node(node(node(root, "AddonUI"), "OfficeMenuBar"), "slipbark.menu", "replace");
    title(top, slipbark::translatable("Rework"));
    property(top, "Context", spreadsheets);
    Menu menu(node(top, "Submenu"));
    for (const auto& workbook : slipbark::workbooks::all) {
        menu.command(std::string(slipbark::addin::new_from).append(workbook.file), workbook.menu_title);
    }
    menu.separator();
    for (const auto& command : slipbark::addin::commands) menu.command(std::string(command.name), command.title);
    return whole;
}

}  // namespace

int main(int count, char** words) {
    try {
        if (count != 2) throw std::invalid_argument("usage: slipbark_make_menu FILE");
        boost::property_tree::write_xml(words[1], addons(), std::locale::classic(),
                                        boost::property_tree::xml_writer_make_settings<std::string>(' ', 1));
        return 0;
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
        return 1;
    }
}
