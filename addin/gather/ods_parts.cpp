#include "gather/ods_parts.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>

namespace slipbark::gather {

namespace {

std::int64_t repeats(XmlAttributes attributes, std::string_view name) {
    const std::string_view text = attribute(attributes, name);
    std::int64_t count = 1;
    std::from_chars(text.data(), text.data() + text.size(), count);
    constexpr std::int64_t most = 1048576;  // rows of a sheet; a larger number is damage
    return count < 1 ? 1 : std::min(count, most);
}

std::optional<double> read_number(std::string_view text) {
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size()) return {};
    return number;
}

bool is_cell(std::string_view element) {
    return element == "table:table-cell" || element == "table:covered-table-cell";
}

/// What is anchored in a cell and has text of its own.
bool is_foreign(std::string_view element) { return element == "office:annotation" || element.starts_with("draw:"); }

}  // namespace

std::optional<double> days_of_date(std::string_view iso) {
    const auto part = [&](std::size_t from, std::size_t size) {
        int number = -1;
        if (iso.size() < from + size) return -1;
        const auto [end, error] = std::from_chars(iso.data() + from, iso.data() + from + size, number);
        return error == std::errc() && end == iso.data() + from + size ? number : -1;
    };
    if (iso.size() < 10 || iso[4] != '-' || iso[7] != '-') return {};
    const std::chrono::year_month_day day{std::chrono::year{part(0, 4)},
                                          std::chrono::month(static_cast<unsigned>(part(5, 2))),
                                          std::chrono::day(static_cast<unsigned>(part(8, 2)))};
    if (!day.ok()) return {};
    using namespace std::chrono_literals;
    const auto days = std::chrono::sys_days(day) - std::chrono::sys_days(1899y / 12 / 30);
    double number = static_cast<double>(days.count());
    if (iso.size() >= 19 && iso[10] == 'T') {
        number += (part(11, 2) + part(14, 2) / 60.0 + part(17, 2) / 3600.0) / 24.0;
    }
    return number;
}

void OdsContent::start(std::string_view element, XmlAttributes attributes) {
    if (element == "table:table") {
        // A sheet is a table that stands in no other.
        if (++tables_ == 1) {
            sheet_ = &into_.sheets[std::string(attribute(attributes, "table:name"))];
            row_ = 0;
        }
    } else if (tables_ > 1) {
        return;
    } else if (element == "table:table-row") {
        row_repeats_ = repeats(attributes, "table:number-rows-repeated");
        column_ = 0;
    } else if (is_cell(element)) {
        start_cell(attributes);
    } else if (in_cell_) {
        if (is_foreign(element)) ++in_note_;
        if (element == "text:p" && in_note_ == 0 && in_paragraph_++ == 0 && paragraphs_++ > 0) shown_ += '\n';
        if (element == "text:s" && in_paragraph_ > 0)
            shown_.append(static_cast<std::size_t>(repeats(attributes, "text:c")), ' ');
        if (element == "text:tab" && in_paragraph_ > 0) shown_ += '\t';
    } else if (element == "table:named-range") {
        if (auto area = ods_area(attribute(attributes, "table:cell-range-address"))) {
            into_.names.emplace(lower(attribute(attributes, "table:name")), std::move(*area));
        }
    }
}

void OdsContent::start_cell(XmlAttributes attributes) {
    cell_ = {row_, row_repeats_, column_, repeats(attributes, "table:number-columns-repeated"), {}};
    in_cell_ = true;
    paragraphs_ = in_paragraph_ = in_note_ = 0;
    shown_.clear();
    is_error_ = attribute(attributes, "calcext:value-type") == "error";
    const std::string_view type = attribute(attributes, "office:value-type");
    shown_counts_ = is_error_ || type == "string";
    std::optional<double> number;
    if (type == "float" || type == "percentage" || type == "currency") {
        number = read_number(attribute(attributes, "office:value"));
    } else if (type == "date") {
        number = days_of_date(attribute(attributes, "office:date-value"));
    } else if (type == "boolean") {
        number = attribute(attributes, "office:boolean-value") == "true" ? 1 : 0;
    }
    if (number && !is_error_) cell_.value = *number;
}

void OdsContent::end(std::string_view element) {
    if (element == "table:table") {
        if (--tables_ == 0) sheet_ = nullptr;
    } else if (tables_ > 1) {
        return;
    } else if (is_cell(element)) {
        end_cell();
    } else if (in_cell_) {
        if (is_foreign(element)) --in_note_;
        if (element == "text:p" && in_note_ == 0) --in_paragraph_;
    } else if (element == "table:table-row") {
        row_ += row_repeats_;
    }
}

void OdsContent::end_cell() {
    if (shown_counts_ && !shown_.empty()) {
        if (is_error_) {
            cell_.value = CellError{shown_};
        } else {
            cell_.value = shown_;
        }
    }
    column_ += cell_.columns;
    in_cell_ = false;
    if (sheet_ != nullptr && !std::holds_alternative<std::monostate>(cell_.value)) sheet_->push_back(std::move(cell_));
}

void OdsContent::text(std::string_view characters) {
    if (in_cell_ && in_paragraph_ > 0 && in_note_ == 0 && shown_counts_) shown_ += characters;
}

void OdsMeta::start(std::string_view element, XmlAttributes attributes) {
    if (element != "meta:user-defined") return;
    name_ = attribute(attributes, "meta:name");
    value_.clear();
    inside_ = true;
}

void OdsMeta::end(std::string_view element) {
    if (element != "meta:user-defined") return;
    into_.properties[name_] = value_;
    inside_ = false;
}

void OdsMeta::text(std::string_view characters) {
    if (inside_) value_ += characters;
}

void OdsManifest::start(std::string_view element, XmlAttributes /*attributes*/) {
    if (element.ends_with(":encryption-data")) encrypted_ = true;
}

}  // namespace slipbark::gather
