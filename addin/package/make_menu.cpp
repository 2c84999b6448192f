// Writes Addons.xcu, the menu of our own in spreadsheets: the workbooks of the registry, then the commands.

#include <fstream>
#include <iostream>
#include <stdexcept>

#include "component/commands.hpp"
#include "composer/registry.hpp"
#include "generate/registry_file.hpp"

namespace {

using slipbark::Text;
using slipbark::catalogue::Language;
using slipbark::generate::add_node;
using slipbark::generate::add_property;
using slipbark::generate::ptree;

using Languages = std::vector<Language>;

void add_title(ptree& node, const Languages& languages, Text title) {
    add_property(node, "Title", languages, [&](const Language& language) { return language.translated(title); });
}

void add_context(ptree& node) { add_property(node, "Context", "com.sun.star.sheet.SpreadsheetDocument"); }

/// The items in their order, which is that of their names.
class Items {
  public:
    Items(ptree& menu, const Languages& languages) : menu_(menu), languages_(languages) {}

    void command(const std::string& name, Text title) {
        ptree& made = item();
        add_property(made, "URL", std::string(slipbark::addin::protocol) + name);
        add_title(made, languages_, title);
        add_property(made, "Target", "_self");
        add_context(made);
    }
    void separator() { add_property(item(), "URL", "private:separator"); }

  private:
    ptree& item() {
        const std::string number = std::to_string(++count_);
        return add_node(menu_, (count_ < 10 ? "m0" : "m") + number);
    }

    ptree& menu_;
    const Languages& languages_;
    int count_ = 0;
};

ptree addons(const Languages& languages) {
    ptree file;
    ptree& bar =
        add_node(add_node(slipbark::generate::add_component(file, "Addons"), "AddonUI", false), "OfficeMenuBar", false);
    ptree& menu = add_node(bar, "slipbark.menu");
    add_title(menu, languages, slipbark::translatable("Rework"));
    add_context(menu);
    Items items(add_node(menu, "Submenu", false), languages);
    for (const auto& workbook : slipbark::workbooks::all) {
        items.command(std::string(slipbark::addin::new_from).append(workbook.file), workbook.menu_title);
    }
    for (const auto& command : slipbark::addin::commands) {
        if (command.begins_group) items.separator();
        items.command(std::string(command.name), command.title);
    }
    return file;
}

}  // namespace

int main(int count, char** words) {
    try {
        if (count != 2 && count != 4) throw std::invalid_argument("usage: slipbark_make_menu FILE [TAG MO]");
        const std::vector<std::string> further(words + 2, words + count);
        std::string messages;
        std::ofstream out(words[1], std::ios::binary);
        slipbark::generate::write(out, addons(slipbark::generate::languages_with(further, messages)));
        out.close();
        if (!out) throw std::runtime_error(std::string("cannot write ") + words[1]);
        return 0;
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
        return 1;
    }
}
