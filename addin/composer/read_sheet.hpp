// One sheet's text.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "composer/sheet.hpp"
#include "composer/text.hpp"

namespace slipbark::compose {

/// A formula and where it was typed, for what can be checked once all names are known.
struct TypedFormula {
    std::filesystem::path file;
    int line = 0;
    std::string cell;
    std::string formula;
};

using Fields = std::map<std::string, std::string, std::less<>>;

class SheetText {
  public:
    /// `fields` are those of the book, which {name} puts into a line.
    SheetText(std::filesystem::path file, Fields fields);

    [[nodiscard]] Paper paper() const;

    /// Fills the sheet and appends its formulas. throws TextError
    void fill(Sheet& sheet, std::vector<TypedFormula>& formulas) const;

  private:
    std::filesystem::path file_;
    Fields fields_;
    std::vector<TextLine> own_;    ///< the lines on the sheet itself
    std::vector<TextLine> lines_;  ///< those that name columns and those of cells, repeated ones written out
};

}  // namespace slipbark::compose
