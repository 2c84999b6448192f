#include "composer/xml.hpp"

#include <algorithm>
#include <array>
#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <sstream>
#include <utility>

#include "composer/look.hpp"

namespace slipbark::compose {

namespace {

using FormatWord = std::pair<Format, std::string_view>;
constexpr auto formats = std::to_array<FormatWord>({
    {Format::general, "general"},
    {Format::text, "text"},
    {Format::count, "count"},
    {Format::tenth, "tenth"},
    {Format::hundredth, "hundredth"},
    {Format::percent, "percent"},
    {Format::percent_tenth, "percent-tenth"},
    {Format::date, "date"},
    {Format::weekday_date, "weekday-date"},
});

/// Takes out the blanks between elements.
void drop_indents(Tree& tree) {
    for (auto& [name, child] : tree) {
        if (name != "<xmlattr>") tree.data().clear();
        drop_indents(child);
    }
}

}  // namespace

Tree& add(Tree& parent, const std::string& name, const Attributes& attributes, const std::string& text) {
    Tree& child = parent.push_back({name, Tree(text)})->second;
    if (!attributes.empty()) {
        Tree& list = child.push_back({"<xmlattr>", Tree()})->second;
        for (const auto& [key, value] : attributes) list.push_back({key, Tree(value)});
    }
    return child;
}

std::string cm(double length) { return plain_number(length) + "cm"; }

std::string format_name(Format format) {
    if (format == Format::general) return {};
    return std::string(std::ranges::find(formats, format, &FormatWord::first)->second);
}

std::optional<Format> read_format(std::string_view word) {
    const auto* const found = std::ranges::find(formats, word, &FormatWord::second);
    return found == formats.end() ? std::nullopt : std::optional(found->first);
}

const Tree& look() {
    static const Tree read = [] {
        std::istringstream in{look_xml};
        Tree tree;
        boost::property_tree::read_xml(in, tree, boost::property_tree::xml_parser::no_comments);
        drop_indents(tree);
        return tree;
    }();
    return read;
}

void add_number_formats(Tree& styles) {
    for (const auto& style : look().get_child("office:document.office:styles")) {
        if (style.first.starts_with("number:")) styles.push_back(style);
    }
}

}  // namespace slipbark::compose
