// Files of the host's registry (.xcu), in which texts stand in every language.
#pragma once

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <fstream>
#include <functional>
#include <iterator>
#include <ostream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/language.hpp"

namespace slipbark::generate {

using boost::property_tree::ptree;

/// The root of the file's tree for one component of the registry: org.openoffice.Office.`name`.
inline ptree& add_component(ptree& file, const std::string& name) {
    ptree& root = file.add("oor:component-data", "");
    root.put("<xmlattr>.xmlns:oor", "http://openoffice.org/2001/registry");
    root.put("<xmlattr>.xmlns:xs", "http://www.w3.org/2001/XMLSchema");
    root.put("<xmlattr>.oor:name", name);
    root.put("<xmlattr>.oor:package", "org.openoffice.Office");
    return root;
}

/// A node beside those already there, also where one has its name.
inline ptree& add_node(ptree& parent, const std::string& name, bool replaces = true) {
    ptree& node = parent.add("node", "");
    node.put("<xmlattr>.oor:name", name);
    if (replaces) node.put("<xmlattr>.oor:op", "replace");
    return node;
}

/// A property that is the same in each language.
inline void add_property(ptree& node, const std::string& name, const std::string& value) {
    ptree& property = node.add("prop", "");
    property.put("<xmlattr>.oor:name", name);
    property.add("value", value);
}

/// The languages built in, and a further one where two words more give its tag and its .mo file, whose bytes go
/// into `messages` and live there.
inline std::vector<catalogue::Language> languages_with(const std::vector<std::string>& words, std::string& messages) {
    std::vector<catalogue::Language> all = catalogue::languages();
    if (words.size() != 2) return all;
    std::ifstream in(words[1], std::ios::binary);
    messages.assign(std::istreambuf_iterator<char>(in), {});
    if (messages.empty()) throw std::runtime_error("cannot read " + words[1]);
    all.emplace_back(std::string_view(words[0]), messages);
    return all;
}

/// A property as it is in each of the languages.
inline void add_property(ptree& node, const std::string& name, const std::vector<catalogue::Language>& languages,
                         const std::function<std::string(const catalogue::Language&)>& text) {
    ptree& property = node.add("prop", "");
    property.put("<xmlattr>.oor:name", name);
    for (const catalogue::Language& language : languages) {
        property.add("value", text(language)).put("<xmlattr>.xml:lang", std::string(language.tag()));
    }
}

inline void write(std::ostream& out, const ptree& file) {
    boost::property_tree::write_xml(out, file,
                                    boost::property_tree::xml_writer_make_settings<std::string>(' ', 2, "UTF-8"));
}

}  // namespace slipbark::generate
