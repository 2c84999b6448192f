// Writes what the extension manager shows: description.xml from its frame, with the name of the extension in each
// language, and beside it a text for each.

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>
#include <stdexcept>

#include "catalogue/language.hpp"

namespace {

using boost::property_tree::ptree;
using slipbark::Text;
using slipbark::catalogue::Language;

constexpr Text name = slipbark::translatable("Slipbark - reworking fruit trees");
constexpr Text about = slipbark::translatable(
    "Cell functions and workbooks for reworking (topworking) fruit trees: budsticks, grafts to place, crew and dates, "
    "take with its limits, yield and money by year. Type =REWORK. in a cell to find them. Licence: Mozilla Public "
    "License 2.0.");

void write(const std::filesystem::path& path, const std::string& text) {
    std::ofstream out(path, std::ios::binary);
    out << text;
    out.close();
    if (!out) throw std::runtime_error("cannot write " + path.string());
}

void describe(const std::filesystem::path& frame, const std::filesystem::path& folder) {
    ptree file;
    read_xml(frame.string(), file, boost::property_tree::xml_parser::trim_whitespace);
    ptree& description = file.get_child("description");
    for (const Language& language : slipbark::catalogue::languages()) {
        const std::string tag(language.tag());
        const std::string text = "description-" + tag + ".txt";
        write(folder / text, language.translated(about) + "\n");
        description.get_child("display-name").add("name", language.translated(name)).put("<xmlattr>.lang", tag);
        ptree& source = description.get_child("extension-description").add("src", "");
        source.put("<xmlattr>.lang", tag);
        source.put("<xmlattr>.xlink:href", text);
    }
    std::ostringstream out;
    write_xml(out, file, boost::property_tree::xml_writer_make_settings<std::string>(' ', 2, "UTF-8"));
    write(folder / "description.xml", out.str());
}

}  // namespace

int main(int count, char** words) {
    try {
        if (count != 3) throw std::invalid_argument("usage: slipbark_make_description FRAME FOLDER");
        describe(words[1], words[2]);
        return 0;
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
        return 1;
    }
}
