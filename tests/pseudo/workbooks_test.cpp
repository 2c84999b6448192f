// In a language whose letters all have accents no cell, no sentence of a formula, no help of an entry and no chart may
// be plain: what is plain has missed the translations.

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <functional>
#include <map>
#include <set>
#include <string>

#include "catalogue/catalogue.hpp"
#include "catalogue/formula.hpp"
#include "composer/registry.hpp"
#include "slipbark/defaults.hpp"
#include "texts.hpp"

namespace slipbark::tests {
namespace {

using boost::property_tree::ptree;

ptree workbook(std::string_view folder, std::string_view name) {
    ptree tree;
    boost::property_tree::read_xml(std::string(folder).append("/").append(name).append(".fods"), tree);
    return tree;
}

/// Every element of that name.
void each(const ptree& node, const std::string& name, const std::function<void(const ptree&)>& use) {
    for (const auto& [tag, child] : node) {
        if (tag == name) use(child);
        if (tag != "<xmlattr>") each(child, name, use);
    }
}

/// What is the same in every language: names of functions and arguments, keywords, words of the built-in tables.
const std::set<std::string, std::less<>>& names() {
    static const auto all = [] {
        // Units of the host's CONVERT, a REGEX, what other programs say, other people's names of their examples.
        std::set<std::string, std::less<>> names{"REWORK", "Err", "NAME", "ft", "ha", "uk_acre", "in",
                                                 "cm",     "mm",  "gal",  "oz", "ml", "ft2"};
        names.insert({"ADDRESS", "overdue", "due", "NE", "SE", "SW", "NW"});
        for (const auto& area : catalogue::areas()) {
            for (const auto& entry : area.entries) {
                names.insert(entry.cell_name().substr(catalogue::cell_prefix.size()));
                // Texts that an example puts in, which its card keeps as they are, and what it then shows.
                for (const catalogue::Token& token : catalogue::tokens(entry.texts.example)) {
                    if (token.part == catalogue::Part::text) names.insert(catalogue::unquoted(token.text));
                }
                names.emplace(entry.texts.shows);
                for (const auto& argument : entry.arguments) {
                    names.emplace(argument.name);
                    names.insert(argument.range.keywords.begin(), argument.range.keywords.end());
                    for (const auto& column : argument.range.columns) {
                        names.insert(column.keywords.begin(), column.keywords.end());
                    }
                }
            }
        }
        // Words of a day-book, which its functions take in English.
        names.insert({"grafted", "counted", "regrafted", "counted regrafts", "lost", "received", "no work", "paid",
                      "closed", "cut stage", "graft stage", "look stage"});
        // Sources of what grows on what.
        names.insert({"J. Connell, University of California Cooperative Extension, Western Farm Press",
                      "Raiol-Junior et al., Agriculture 12(1):76, 2022",
                      "University of California, Fruit & Nut Research and Information Center (Doll & DeBuse)"});
        for (const defaults::Schedule& schedule : defaults::schedules()) {
            for (const defaults::Stage& stage : schedule.stages) {
                for (const std::string_view text : {stage.name, stage.sign, stage.source}) names.emplace(text);
            }
        }
        return names;
    }();
    return all;
}

bool is_ascii(std::string_view text) {
    return std::none_of(text.begin(), text.end(), [](unsigned char c) { return c >= 0x80; });
}

/// The words of two or more plain letters that are no names; a word with "_" and digits in it as a whole.
std::string plain_words(const std::string& text) {
    if (names().contains(text)) return {};
    // "bagged bark graft" in quotes, a file of check values, an example's number such as WT-068 or S7c-4, the tag of a
    // pattern of SENTENCE and its places.
    std::string rest;
    std::size_t from = 0;
    for (const auto& found : matches(text,
                                     "^en-US:|\\{[0-9]+:[a-z]+\\}|\"[a-z "
                                     "-]+\"|^[A-Za-z_]+\\.csv|[A-Z]+[0-9a-z]*-[A-Za-z0-9]+")) {
        const std::string& word = found[0];
        const auto at = text.find(word, from);
        const bool is_name = word.front() != '"' || names().contains(word.substr(1, word.size() - 2));
        rest.append(text, from, at - from).append(is_name ? "" : word);
        from = at + word.size();
    }
    rest.append(text, from);
    std::string plain;
    for (const auto& run : matches(rest, "[A-Za-z_0-9]*[A-Za-z]{2}[A-Za-z_0-9]*")) {
        if (!names().contains(run[0])) plain += " " + run[0];
    }
    return plain;
}

class PseudoWorkbook : public testing::TestWithParam<workbooks::Listed> {};

TEST_P(PseudoWorkbook, SaysNothingInEnglish) {
    const ptree book = workbook(SLIPBARK_PSEUDO_WORKBOOKS, GetParam().file);
    std::map<std::string, int> plain;
    const auto look = [&](const std::string& text) {
        const std::string runs = plain_words(text);
        if (!runs.empty()) ++plain[text + "\n  plain:" + runs];
    };
    for (const char* name : {"text:p", "dc:title", "dc:description", "svg:title", "svg:desc"}) {
        each(book, name, [&](const ptree& element) { look(element.data()); });
    }
    each(book, "table:table", [&](const ptree& sheet) { look(sheet.get("<xmlattr>.table:name", "")); });
    for (const auto& [text, times] : plain) ADD_FAILURE() << times << " times: " << text;
}

TEST_P(PseudoWorkbook, SaysNothingInEnglishInItsFormulas) {
    const ptree book = workbook(SLIPBARK_PSEUDO_WORKBOOKS, GetParam().file);
    std::map<std::string, std::string> plain;
    std::size_t accented = 0;
    const auto look = [&](const std::string& formula) {
        for (const catalogue::Token& token : catalogue::tokens(formula)) {
            if (token.part != catalogue::Part::text) continue;
            const std::string text = catalogue::unquoted(token.text);
            if (!is_ascii(text)) ++accented;
            const bool is_pattern = text.starts_with('^');
            if (!is_pattern && !plain_words(text).empty()) plain.try_emplace(text, formula.substr(0, 300));
        }
    };
    each(book, "table:table-cell", [&](const ptree& cell) { look(cell.get("<xmlattr>.table:formula", "")); });
    each(book, "table:content-validation", [&](const ptree& one) { look(one.get("<xmlattr>.table:condition", "")); });
    each(book, "calcext:condition", [&](const ptree& one) { look(one.get("<xmlattr>.calcext:value", "")); });
    EXPECT_GT(accented, 0U);
    for (const auto& [text, formula] : plain) ADD_FAILURE() << text << "\n  in " << formula;
}

INSTANTIATE_TEST_SUITE_P(All, PseudoWorkbook, testing::ValuesIn(workbooks::all),
                         [](const auto& one) { return as_id(one.param.file); });

}  // namespace
}  // namespace slipbark::tests
