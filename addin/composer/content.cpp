#include "composer/content.hpp"

#include <algorithm>
#include <boost/algorithm/string/trim.hpp>
#include <charconv>

#include "composer/styles.hpp"

namespace slipbark::compose {

namespace {

template <class Number>
std::optional<Number> read_whole(std::string_view text) {
    Number number{};
    const auto* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, number);
    if (text.empty() || read.ec != std::errc{} || read.ptr != end) return std::nullopt;
    return number;
}

}  // namespace

std::optional<double> read_number(std::string_view text) {
    if (text.find_first_not_of("-.0123456789") != std::string_view::npos) return std::nullopt;
    return read_whole<double>(text);
}

std::optional<Date> read_date(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto year = read_whole<int>(text.substr(0, 4));
    const auto month = read_whole<unsigned>(text.substr(5, 2));
    const auto day = read_whole<unsigned>(text.substr(8, 2));
    if (!year || !month || !day) return std::nullopt;
    const Date date{std::chrono::year{*year}, std::chrono::month{*month}, std::chrono::day{*day}};
    return date.ok() ? std::optional(date) : std::nullopt;
}

Content read_content(const std::string& text, Format format) {
    if (text.empty()) return {};
    if (format == Format::text || text.starts_with('=')) return text;
    if (const auto number = read_number(text)) return *number;
    if (const auto date = read_date(text)) return *date;
    return text;
}

std::vector<std::string> bar_list(const std::string& text) {
    std::vector<std::string> parts;
    std::size_t from = 0;
    for (std::size_t at = 0; at <= text.size(); ++at) {
        const bool bar = at < text.size() && text[at] == '|' && (at == 0 || text[at - 1] == ' ') &&
                         (at + 1 == text.size() || text[at + 1] == ' ');
        if (at < text.size() && !bar) continue;
        parts.push_back(boost::algorithm::trim_copy(text.substr(from, at - from)));
        from = at + 1;
    }
    return parts;
}

std::optional<Style> read_style(std::string_view word) {
    const auto found = std::ranges::find(styles::styles(), word, &styles::Named::word);
    return found == styles::styles().end() ? std::nullopt : std::optional(found->style);
}

}  // namespace slipbark::compose
