#include "reference.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iomanip>
#include <iterator>
#include <sstream>
#include <stdexcept>

namespace slipbark::tests {

namespace {

/// The fields of a line (RFC 4180). Boost's separator loses the doubled quotes, which formulas with texts need.
std::vector<std::string> fields(const std::string& line) {
    std::vector<std::string> found(1);
    bool quoted = false;
    for (std::size_t at = 0; at < line.size(); ++at) {
        const bool doubled = quoted && line.compare(at, 2, R"("")") == 0;
        if (doubled) ++at;
        if (line[at] == '"' && !doubled) {
            quoted = !quoted;
        } else if (line[at] == ',' && !quoted) {
            found.emplace_back();
        } else {
            found.back() += line[at];
        }
    }
    return found;
}

std::vector<std::string> words(const std::string& text) {
    std::istringstream in(text);
    return {std::istream_iterator<std::string>(in), {}};
}

/// A plain number. Not by boost::lexical_cast, which faults under wine where MinGW built it.
double plain_number(std::string_view text) {
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size()) {
        throw std::runtime_error("not a number: " + std::string(text));
    }
    return number;
}

double to_number(std::string_view text) {
    const auto slash = text.find('/');
    if (slash == std::string_view::npos) return plain_number(text);
    return plain_number(text.substr(0, slash)) / plain_number(text.substr(slash + 1));
}

}  // namespace

const std::string& Row::operator[](const std::string& column) const {
    const auto found = columns.find(column);
    if (found == columns.end()) throw std::out_of_range(file + " has no column " + column);
    return found->second;
}

bool Row::has(const std::string& column) const {
    const auto found = columns.find(column);
    return found != columns.end() && !found->second.empty();
}

double Row::number(const std::string& column) const { return to_number((*this)[column]); }

std::vector<double> Row::numbers(const std::string& column) const {
    std::vector<double> values;
    for (const auto& word : words((*this)[column])) values.push_back(to_number(word));
    return values;
}

List Row::list(const std::string& column) const {
    const auto values = numbers(column);
    return {std::vector<Cell>(values.begin(), values.end())};
}

Day Row::day(const std::string& column) const { return iso((*this)[column]); }

std::vector<Row> rows(const std::string& file, const std::vector<std::string>& functions) {
    std::string path = std::string(SLIPBARK_REFERENCE_DIR) + "/" + file;
    std::ifstream in(path);
    if (!in) throw std::runtime_error("cannot read " + path);
    std::string line;
    std::getline(in, line);
    const auto names = fields(line);
    std::vector<Row> found;
    while (std::getline(in, line)) {
        if (line.empty()) continue;
        const auto values = fields(line);
        if (values.size() != names.size()) {
            throw std::runtime_error(path.append(": odd number of fields: ").append(line));
        }
        Row row{file, {}};
        for (std::size_t index = 0; index < names.size(); ++index) row.columns[names[index]] = values[index];
        const auto wanted = [&] { return std::find(functions.begin(), functions.end(), row["function"]); };
        if (functions.empty() || wanted() != functions.end()) found.push_back(std::move(row));
    }
    // A typing error in a name must not turn a table of tests into none.
    if (found.empty()) throw std::runtime_error(path + " has no such rows");
    return found;
}

std::vector<std::string> reference_files() {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(SLIPBARK_REFERENCE_DIR)) {
        if (entry.path().extension() == ".csv") names.push_back(entry.path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

testing::AssertionResult agrees(const Row& row, double actual) {
    const double expected = row.number("expected");
    const auto tolerance = words(row["tolerance"]);
    double allowed = 0;
    if (tolerance.at(0) == "abs") {
        allowed = to_number(tolerance.at(1));
    } else if (tolerance.at(0) == "rel") {
        allowed = to_number(tolerance.at(1)) * std::abs(expected);
    } else if (tolerance.at(0) != "exact") {
        return testing::AssertionFailure() << "unknown tolerance in " << row;
    }
    if (std::abs(actual - expected) <= allowed) return testing::AssertionSuccess();
    return testing::AssertionFailure() << std::setprecision(17) << actual << " is not " << expected << " within "
                                       << row["tolerance"] << " for " << row;
}

std::string row_id(const testing::TestParamInfo<Row>& info) {
    std::string name = info.param["id"] + "_" + info.param["function"];
    std::replace_if(
        name.begin(), name.end(), [](unsigned char letter) { return std::isalnum(letter) == 0; }, '_');
    return name;
}

std::ostream& operator<<(std::ostream& out, const Row& row) {
    out << row.file << ":";
    for (const auto& [name, value] : row.columns) {
        if (!value.empty()) out << " " << name << "=" << value << ";";
    }
    return out;
}

Day iso(std::string_view date) {
    std::istringstream in{std::string(date)};
    int year = 0;
    unsigned month = 0;
    unsigned day = 0;
    char dash = 0;
    if (!(in >> year >> dash >> month >> dash >> day))
        throw std::runtime_error("not an ISO date: " + std::string(date));
    return Day{std::chrono::year{year} / static_cast<int>(month) / static_cast<int>(day)};
}

}  // namespace slipbark::tests
