#include "gather/xlsx_parts.hpp"

#include <charconv>
#include <utility>

namespace slipbark::gather {

namespace {

std::string_view local(std::string_view element) {
    const auto colon = element.rfind(':');
    return colon == std::string_view::npos ? element : element.substr(colon + 1);
}

/// An attribute whatever its prefix: r:id.
std::string_view local_attribute(XmlAttributes all, std::string_view name) {
    for (const XmlAttribute& one : all) {
        if (local(one.name) == name) return one.value;
    }
    return {};
}

std::optional<std::int64_t> whole(std::string_view text) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size()) return {};
    return number;
}

}  // namespace

void XlsxWorkbook::start(std::string_view element, XmlAttributes attributes) {
    const auto name = local(element);
    if (name == "sheet") {
        // r:id, not sheetId, whose local name is another
        sheets_.push_back({std::string(attribute(attributes, "name")), std::string(local_attribute(attributes, "id"))});
    } else if (name == "workbookPr") {
        const auto from_1904 = attribute(attributes, "date1904");
        into_.dates_from_1904 = from_1904 == "1" || from_1904 == "true";
    } else if (name == "definedName") {
        inside_ = attribute(attributes, "localSheetId").empty();  // print ranges and the like belong to one sheet
        name_ = lower(attribute(attributes, "name"));
        formula_.clear();
    }
}

void XlsxWorkbook::end(std::string_view element) {
    if (local(element) != "definedName") return;
    if (auto area = inside_ ? xlsx_area(formula_) : std::nullopt) into_.names.emplace(name_, std::move(*area));
    inside_ = false;
}

void XlsxWorkbook::text(std::string_view characters) {
    if (inside_) formula_ += characters;
}

void XlsxRelations::start(std::string_view element, XmlAttributes attributes) {
    if (local(element) != "Relationship") return;
    std::string target(attribute(attributes, "Target"));
    // Paths count from xl/, or from the root of the package.
    target = target.starts_with("/") ? target.substr(1) : "xl/" + target;
    parts_[std::string(attribute(attributes, "Id"))] = target;
}

std::string XlsxRelations::part(const std::string& id) const {
    const auto found = parts_.find(id);
    return found == parts_.end() ? std::string() : found->second;
}

void XlsxStrings::start(std::string_view element, XmlAttributes /*attributes*/) {
    const auto name = local(element);
    if (name == "si") now_.clear();
    if (name == "rPh") ++in_reading_;
    if (name == "t") in_text_ = in_reading_ == 0;
}

void XlsxStrings::end(std::string_view element) {
    const auto name = local(element);
    if (name == "si") texts_.push_back(now_);
    if (name == "rPh") --in_reading_;
    if (name == "t") in_text_ = false;
}

void XlsxStrings::text(std::string_view characters) {
    if (in_text_) now_ += characters;
}

void XlsxSheet::start(std::string_view element, XmlAttributes attributes) {
    const auto name = local(element);
    if (name == "row") {
        const auto number = whole(attribute(attributes, "r"));
        next_ = {number ? *number - 1 : next_.row + 1, 0};
    } else if (name == "c") {
        const auto place = cell_position(attribute(attributes, "r"));
        at_ = place ? *place : next_;
        next_ = {at_.row, at_.column + 1};
        type_ = attribute(attributes, "t");
        value_.clear();
    } else if (name == "v" || name == "t") {
        in_value_ = true;
    }
}

void XlsxSheet::end(std::string_view element) {
    const auto name = local(element);
    if (name == "v" || name == "t") in_value_ = false;
    if (name != "c" || value_.empty()) return;
    CellValue value;
    if (type_ == "e") {
        value = CellError{value_};
    } else if (type_ == "s") {
        const auto number = whole(value_);
        if (!number || *number < 0 || *number >= static_cast<std::int64_t>(strings_.size())) return;
        value = strings_[static_cast<std::size_t>(*number)];
    } else if (type_ == "str" || type_ == "inlineStr") {
        value = value_;
    } else {
        double number = 0;
        const auto [end, error] = std::from_chars(value_.data(), value_.data() + value_.size(), number);
        if (error != std::errc() || end != value_.data() + value_.size()) return;
        value = number;
    }
    if (const auto* text = std::get_if<std::string>(&value); text != nullptr && text->empty()) return;
    into_.push_back({at_.row, 1, at_.column, 1, std::move(value)});
}

void XlsxSheet::text(std::string_view characters) {
    if (in_value_) value_ += characters;
}

void XlsxProperties::start(std::string_view element, XmlAttributes attributes) {
    if (local(element) == "property") {
        name_ = attribute(attributes, "name");
        value_.clear();
    }
}

void XlsxProperties::end(std::string_view element) {
    if (local(element) == "property" && !name_.empty()) into_.properties[std::exchange(name_, {})] = value_;
}

void XlsxProperties::text(std::string_view characters) {
    if (!name_.empty()) value_ += characters;
}

}  // namespace slipbark::gather
