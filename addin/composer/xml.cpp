#include "composer/xml.hpp"

#include <boost/property_tree/ptree.hpp>
#include <stdexcept>

namespace slipbark::compose {

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
    switch (format) {
        case Format::general:
            return {};
        case Format::text:
            return "text";
        case Format::count:
            return "count";
        case Format::tenth:
            return "tenth";
        case Format::hundredth:
            return "hundredth";
        case Format::percent:
            return "percent";
        case Format::percent_tenth:
            return "percent-tenth";
        case Format::date:
            return "date";
        case Format::weekday_date:
            return "weekday-date";
    }
    throw std::logic_error("a format without a name");
}

void add_number_formats(Tree& styles) {
    const auto plain = [&](const char* name, const char* element, const char* decimals) -> Tree& {
        Tree& format = add(styles, element, {{"style:name", name}});
        add(format, "number:number",
            {{"number:decimal-places", decimals},
             {"number:min-decimal-places", decimals},
             {"number:min-integer-digits", "1"},
             {"number:grouping", "true"}});
        return format;
    };
    plain("count", "number:number-style", "0");
    plain("tenth", "number:number-style", "1");
    plain("hundredth", "number:number-style", "2");
    add(plain("percent", "number:percentage-style", "0"), "number:text", {}, " %");
    add(plain("percent-tenth", "number:percentage-style", "1"), "number:text", {}, " %");
    add(add(styles, "number:text-style", {{"style:name", "text"}}), "number:text-content");
    for (const bool weekday : {false, true}) {
        Tree& date = add(styles, "number:date-style", {{"style:name", weekday ? "weekday-date" : "date"}});
        if (weekday) {
            add(date, "number:day-of-week");
            add(date, "number:text", {}, " ");
        }
        add(date, "number:day");
        add(date, "number:text", {}, " ");
        add(date, "number:month", {{"number:textual", "true"}});
        add(date, "number:text", {}, " ");
        add(date, "number:year", {{"number:style", "long"}});
    }
}

}  // namespace slipbark::compose
