#include "gather/workbook_cells.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace slipbark::gather {

namespace {

constexpr std::int64_t most_rows = 1048576;
constexpr std::int64_t most_columns = 16384;

/// Takes a sheet's name, quoted or not, from the front of `text`, with the sign behind it.
std::optional<std::string> take_sheet(std::string_view& text, char sign) {
    if (text.starts_with("$")) text.remove_prefix(1);
    std::string sheet;
    if (text.starts_with("'")) {
        std::size_t at = 1;
        for (; at < text.size(); ++at) {
            if (text[at] == '\'') {
                if (at + 1 == text.size() || text[at + 1] != '\'') break;
                ++at;  // '' is an apostrophe of the name
            }
            sheet += text[at];
        }
        if (at + 1 >= text.size() || text[at + 1] != sign) return {};
        text.remove_prefix(at + 2);
        return sheet;
    }
    const auto end = text.find(sign);
    if (end == std::string_view::npos || end == 0) return {};
    sheet = text.substr(0, end);
    text.remove_prefix(end + 1);
    return sheet;
}

std::optional<NamedArea> area_of(std::string_view text, char sign) {
    auto sheet = take_sheet(text, sign);
    if (!sheet) return {};
    const auto colon = text.find(':');
    const auto first = cell_position(text.substr(0, colon));
    auto last = first;
    if (colon != std::string_view::npos) {
        std::string_view rest = text.substr(colon + 1);
        // ".$B$205" or "$Rows.$B$205": the sheet is that of the first cell
        if (const auto before = rest.rfind(sign); before != std::string_view::npos) rest.remove_prefix(before + 1);
        last = cell_position(rest);
    }
    if (!first || !last || last->row < first->row || last->column < first->column) return {};
    return NamedArea{std::move(*sheet), first->row, first->column, last->row, last->column};
}

}  // namespace

std::string lower(std::string_view text) {
    std::string small(text);
    std::ranges::transform(small, small.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return small;
}

std::optional<CellPosition> cell_position(std::string_view text) {
    if (text.starts_with("$")) text.remove_prefix(1);
    std::int64_t column = 0;
    while (!text.empty() && column <= most_columns) {
        const char c = text.front() >= 'a' ? static_cast<char>(text.front() - 32) : text.front();
        if (c < 'A' || c > 'Z') break;
        column = column * 26 + (c - 'A' + 1);
        text.remove_prefix(1);
    }
    if (text.starts_with("$")) text.remove_prefix(1);
    std::int64_t row = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), row);
    if (error != std::errc() || end != text.data() + text.size()) return {};
    if (column < 1 || column > most_columns || row < 1 || row > most_rows) return {};
    return CellPosition{row - 1, column - 1};
}

std::optional<NamedArea> ods_area(std::string_view text) { return area_of(text, '.'); }

std::optional<NamedArea> xlsx_area(std::string_view text) { return area_of(text, '!'); }

const NamedArea* WorkbookCells::area(std::string_view name) const {
    const auto found = names.find(lower(name));
    return found == names.end() ? nullptr : &found->second;
}

std::vector<CellValue> WorkbookCells::column(const NamedCells& place) const {
    const NamedArea* const named = area(place.name);
    if (named == nullptr) return {};
    const auto sheet = sheets.find(named->sheet);
    const std::int64_t column = named->first_column + place.right;
    if (sheet == sheets.end() || column < 0) return {};
    const std::int64_t last = place.rows > 0 ? named->first_row + place.rows - 1 : named->last_row;
    std::vector<CellValue> values;
    for (const Run& run : sheet->second) {
        if (column < run.column || column >= run.column + run.columns) continue;
        const std::int64_t from = std::max(run.row, named->first_row);
        const std::int64_t to = std::min(run.row + run.rows - 1, last);
        if (from > to) continue;
        const auto size = static_cast<std::size_t>(to - named->first_row + 1);
        if (values.size() < size) values.resize(size);
        for (auto row = from; row <= to; ++row) values[static_cast<std::size_t>(row - named->first_row)] = run.value;
    }
    return values;
}

CellValue WorkbookCells::first(const NamedCells& place) const {
    const auto values = column({place.name, place.right, 1});
    return values.empty() ? CellValue{} : values.front();
}

std::optional<double> number_of(const CellValue& value) {
    const auto* number = std::get_if<double>(&value);
    return number != nullptr && std::isfinite(*number) ? std::optional(*number) : std::nullopt;
}

std::string text_of(const CellValue& value) {
    if (const auto number = number_of(value)) {
        char written[32];
        const auto end = std::to_chars(written, written + sizeof written, *number).ptr;
        return {written, end};
    }
    const auto* text = std::get_if<std::string>(&value);
    if (text == nullptr) return {};
    constexpr std::string_view spaces = " \t\r\n";
    const auto begin = text->find_first_not_of(spaces);
    if (begin == std::string::npos) return {};
    return text->substr(begin, text->find_last_not_of(spaces) - begin + 1);
}

}  // namespace slipbark::gather
