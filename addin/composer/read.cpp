#include "composer/read.hpp"

#include <algorithm>
#include <array>
#include <boost/algorithm/string/join.hpp>
#include <cctype>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "catalogue/formula.hpp"
#include "composer/computed.hpp"
#include "composer/content.hpp"
#include "composer/read_sheet.hpp"
#include "composer/text.hpp"

namespace slipbark::compose {

namespace {

struct SheetLine {
    std::string title;
    std::string computed;  ///< by what, beside what its file has, if any; empty where its file has all
    int line = 0;
};

struct WholeBook {
    BookLines lines;
    bool keeps_keywords = false;
    std::map<std::string, std::string, std::less<>> fields;
    std::vector<SheetLine> sheets;
};

/// Fields that all workbooks may use: shared.tsv next to their folders, a name and its text in each line.
std::map<std::string, std::string, std::less<>> shared_fields(const std::filesystem::path& file) {
    std::map<std::string, std::string, std::less<>> made;
    if (!std::filesystem::exists(file)) return made;
    for (const TextLine& line : read_lines(file)) {
        if (!made.emplace(line.field(0), line.field(1)).second) {
            throw TextError(file, line.number, "", "the field " + line.field(0) + " is given twice");
        }
    }
    return made;
}

WholeBook read_book(const std::filesystem::path& file) {
    WholeBook made;
    made.fields = shared_fields(file.parent_path().parent_path() / "shared.tsv");
    const std::map<std::string, std::string*> texts{{"title", &made.lines.title},
                                                    {"about", &made.lines.about},
                                                    {"menu", &made.lines.menu},
                                                    {"category", &made.lines.category}};
    for (const TextLine& line : read_lines(file)) {
        const std::string& keyword = line.field(0);
        const auto wrong = [&](const std::string& message) { return TextError(file, line.number, "", message); };
        if (const auto text = texts.find(keyword); text != texts.end()) {
            *text->second = line.rest(1);
        } else if (keyword == "order") {
            if (!read_number(line.field(1))) throw wrong("order wants a number, the workbook's place in the menu");
        } else if (keyword == "keywords") {
            if (line.field(1) != "kept") throw wrong("keywords can only be kept");
            made.keeps_keywords = true;
        } else if (keyword == "field") {
            if (!made.fields.emplace(line.field(1), line.field(2)).second) {
                throw wrong("the field " + line.field(1) + " is given twice");
            }
        } else if (keyword == "sheet") {
            const auto words = words_of(line.rest(2));
            if (!words.empty() && (words.size() != 2 || words[0] != "computed")) {
                throw wrong("behind a sheet's title can only stand: computed NAME");
            }
            made.sheets.push_back({line.field(1), words.empty() ? "" : words[1], line.number});
        } else {
            throw wrong("unknown word " + keyword);
        }
    }
    for (const auto& [keyword, text] : texts) {
        if (text->empty()) throw TextError(file, 0, "", "lacks its " + keyword);
    }
    if (made.sheets.empty()) throw TextError(file, 0, "", "lacks its sheets");
    return made;
}

}  // namespace

std::string file_of_sheet(const std::string& title) {
    std::string name;
    for (const char letter : title) {
        name += letter == ' ' ? '-' : static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
    }
    return name + ".tsv";
}

BookLines read_book_lines(const std::filesystem::path& folder) { return read_book(folder / "book.tsv").lines; }

std::unique_ptr<Workbook> read_workbook(const std::filesystem::path& folder) {
    const std::filesystem::path file = folder / "book.tsv";
    const WholeBook lines = read_book(file);
    auto book = std::make_unique<Workbook>(folder.filename().string(), lines.lines.title, lines.lines.about);
    if (lines.keeps_keywords) book->keep_keywords();

    std::vector<std::optional<SheetText>> texts;
    std::vector<Sheet*> sheets;
    for (const SheetLine& one : lines.sheets) {
        const auto text = folder / file_of_sheet(one.title);
        const bool has_text = one.computed.empty() || std::filesystem::exists(text);
        texts.push_back(has_text ? std::optional(SheetText(text, lines.fields)) : std::nullopt);
        sheets.push_back(&book->sheet(one.title, has_text ? texts.back()->paper() : Paper::portrait));
    }
    std::vector<TypedFormula> formulas;
    std::set<std::string> computed;
    for (std::size_t at = 0; at < sheets.size(); ++at) {
        const SheetLine& one = lines.sheets[at];
        if (!one.computed.empty() && computed.insert(one.computed).second) {
            ComputedSheets together;
            for (std::size_t other = at; other < sheets.size(); ++other) {
                if (lines.sheets[other].computed == one.computed) {
                    together.emplace(lines.sheets[other].title, sheets[other]);
                }
            }
            try {
                compute_sheets(one.computed, together, folder);
            } catch (const std::logic_error& error) {
                throw TextError(file, one.line, "", error.what());
            }
        }
        if (texts[at]) texts[at]->fill(*sheets[at], formulas);
    }
    for (const TypedFormula& one : formulas) {
        try {
            (void)catalogue::stored_formula(one.formula, [&](const std::string& name) {
                if (!book->knows(name)) throw std::logic_error("no range is named \"" + name + "\"");
                return name;
            });
        } catch (const std::logic_error& error) {
            throw TextError(one.file, one.line, one.cell, error.what());
        }
    }
    return book;
}

}  // namespace slipbark::compose
