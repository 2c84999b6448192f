// Files of lines whose fields are parted by tabs: no quoting, no escapes. A line that begins with # is a remark; empty
// fields at a line's end do not count.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace slipbark::compose {

struct TextLine {
    int number = 0;  ///< in its file, from 1
    std::vector<std::string> fields;

    /// The field, or an empty text where the line has fewer.
    [[nodiscard]] const std::string& field(std::size_t at) const;
    /// The fields from this one on, with blanks between.
    [[nodiscard]] std::string rest(std::size_t from) const;
};

/// Whether a line without fields counts: in data it is a blank one.
enum class EmptyLines { left_out, kept };

/// A mistake of the author of a workbook: "examples/spring-heat/record.tsv:12: C6: ...".
class TextError : public std::runtime_error {
  public:
    TextError(const std::filesystem::path& file, int line, const std::string& cell, const std::string& message);
};

/// given      file      its name for messages
///            text      what it holds
///            empty     whether empty lines count
/// returned   its lines but for remarks
/// throws     TextError where a line ends in a carriage return
std::vector<TextLine> text_lines(const std::filesystem::path& file, std::string_view text, EmptyLines empty);

/// The same of a file that is read; TextError where it cannot be.
std::vector<TextLine> read_lines(const std::filesystem::path& file, EmptyLines empty = EmptyLines::left_out);

/// Columns of data: their names, and lines that have no more fields than there are columns.
struct Data {
    std::vector<std::string> columns;
    std::vector<TextLine> lines;
};

/// A file whose first line names its columns; a line without fields is one of blanks.
///
/// throws     TextError where it holds nothing, or a line has too many fields
Data read_data(const std::filesystem::path& file);

/// The words of a text with blanks between.
std::vector<std::string> words_of(std::string_view text);

}  // namespace slipbark::compose
