// The tables of an adviser's desk, as its commands read and fill them. Each column is a named range, so the adviser may
// move columns and insert others.
#pragma once

#include <initializer_list>
#include <string>
#include <vector>

#include "component/command.hpp"
#include "component/documents.hpp"

namespace slipbark::addin {

struct DeskTable {
    std::vector<const char*> columns;  ///< names of one-column ranges of the same rows
    std::size_t file = 0;              ///< which of them has the workbook's path; a line without it is not in use
};

/// What a line shows, in the order of the table's columns; a blank cell is an empty text.
using DeskLine = std::vector<css::uno::Any>;

extern const DeskTable desk_blocks;
extern const DeskTable desk_counts;
extern const DeskTable desk_problems;

/// Whether the document has these tables.
bool is_desk(const css::uno::Reference<css::frame::XModel>& model);

std::vector<DeskLine> read_lines(const css::uno::Reference<css::frame::XModel>& model, const DeskTable& table);

/// A table and what to write into it.
struct DeskLines {
    const DeskTable& table;
    const std::vector<DeskLine>& lines;
};

/// Writes the lines from the first on and blanks below them. A table that is too short gets rows before its last one;
/// all get theirs before the first line is written, since tables may stand side by side.
void write_lines(const css::uno::Reference<css::frame::XModel>& model, std::initializer_list<DeskLines> tables);

/// A folder for a command: the one sent with it, or else the one in the named cell, or else the user's choice, which
/// the cell then keeps. As a URL without a slash at its end; empty where there is none.
rtl::OUString chosen_folder(const Sent& sent, const char* cell_name, Text title);

/// The path of a line's workbook.
std::string file_of(const DeskTable& table, const DeskLine& line);

/// A number or a text as a cell holds it, and blank for what is not there.
css::uno::Any cell_of(std::optional<double> number);
css::uno::Any cell_of(const std::string& text);

}  // namespace slipbark::addin
