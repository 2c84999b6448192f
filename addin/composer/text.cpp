#include "composer/text.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <sstream>

namespace slipbark::compose {

namespace {

std::string message_of(const std::filesystem::path& file, int line, const std::string& cell,
                       const std::string& message) {
    std::string text = file.generic_string();
    if (line > 0) text += ":" + std::to_string(line);
    text += ": ";
    if (!cell.empty()) text += cell + ": ";
    return text + message;
}

std::vector<std::string> fields_of(std::string_view line) {
    std::vector<std::string> fields;
    for (std::size_t from = 0; from <= line.size();) {
        const std::size_t end = std::min(line.find('\t', from), line.size());
        fields.emplace_back(line.substr(from, end - from));
        from = end + 1;
    }
    while (!fields.empty() && fields.back().empty()) fields.pop_back();
    return fields;
}

}  // namespace

const std::string& TextLine::field(std::size_t at) const {
    static const std::string none;
    return at < fields.size() ? fields[at] : none;
}

std::string TextLine::rest(std::size_t from) const {
    std::string text;
    for (std::size_t at = from; at < fields.size(); ++at) text += (at == from ? "" : " ") + fields[at];
    return text;
}

TextError::TextError(const std::filesystem::path& file, int line, const std::string& cell, const std::string& message)
    : std::runtime_error(message_of(file, line, cell, message)) {}

std::vector<TextLine> text_lines(const std::filesystem::path& file, std::string_view text, EmptyLines empty) {
    std::vector<TextLine> lines;
    int number = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::string_view line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        ++number;
        if (line.ends_with('\r')) throw TextError(file, number, "", "lines end in a line feed alone here");
        if (line.starts_with('#')) continue;
        TextLine made{number, fields_of(line)};
        if (!made.fields.empty() || empty == EmptyLines::kept) lines.push_back(std::move(made));
    }
    return lines;
}

std::vector<TextLine> read_lines(const std::filesystem::path& file, EmptyLines empty) {
    std::ifstream in(file, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    if (!in) throw TextError(file, 0, "", "cannot be read");
    return text_lines(file, text, empty);
}

Data read_data(const std::filesystem::path& file) {
    Data made;
    made.lines = read_lines(file, EmptyLines::kept);
    if (made.lines.empty()) throw TextError(file, 0, "", "holds no data");
    made.columns = made.lines.front().fields;
    made.lines.erase(made.lines.begin());
    for (const TextLine& line : made.lines) {
        if (line.fields.size() > made.columns.size()) {
            throw TextError(file, line.number, "", "more fields than columns");
        }
    }
    return made;
}

std::vector<std::string> words_of(std::string_view text) {
    std::istringstream in{std::string(text)};
    return {std::istream_iterator<std::string>(in), {}};
}

}  // namespace slipbark::compose
