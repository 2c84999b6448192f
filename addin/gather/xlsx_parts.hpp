// The parts of an Office Open XML workbook (.xlsx), ECMA-376 part 1: SpreadsheetML. Prefixes of namespaces are ignored,
// since one program writes <c> and another <x:c>.
#pragma once

#include "gather/workbook_cells.hpp"
#include "gather/xml_events.hpp"

namespace slipbark::gather {

/// xl/workbook.xml: sheets with the id of their part, names, and which day is 0.
class XlsxWorkbook final : public XmlEvents {
  public:
    explicit XlsxWorkbook(WorkbookCells& into) : into_(into) {}
    void start(std::string_view element, XmlAttributes attributes) override;
    void end(std::string_view element) override;
    void text(std::string_view characters) override;

    struct Sheet {
        std::string name;
        std::string relation;  ///< its id in xl/_rels/workbook.xml.rels
    };
    [[nodiscard]] const std::vector<Sheet>& sheets() const { return sheets_; }

  private:
    WorkbookCells& into_;
    std::vector<Sheet> sheets_;
    std::string name_;
    std::string formula_;
    bool inside_ = false;
};

/// xl/_rels/workbook.xml.rels: the part that an id stands for, as a path in the package ("xl/worksheets/sheet1.xml").
class XlsxRelations final : public XmlEvents {
  public:
    void start(std::string_view element, XmlAttributes attributes) override;
    void end(std::string_view /*element*/) override {}
    void text(std::string_view /*characters*/) override {}
    [[nodiscard]] std::string part(const std::string& id) const;

  private:
    std::map<std::string, std::string> parts_;
};

/// xl/sharedStrings.xml: texts by number. Readings beside Japanese texts (rPh) are left out.
class XlsxStrings final : public XmlEvents {
  public:
    void start(std::string_view element, XmlAttributes attributes) override;
    void end(std::string_view element) override;
    void text(std::string_view characters) override;
    [[nodiscard]] const std::vector<std::string>& texts() const { return texts_; }

  private:
    std::vector<std::string> texts_;
    std::string now_;
    bool in_text_ = false;
    int in_reading_ = 0;
};

/// One sheet's cells.
class XlsxSheet final : public XmlEvents {
  public:
    XlsxSheet(std::vector<Run>& into, const std::vector<std::string>& strings) : into_(into), strings_(strings) {}
    void start(std::string_view element, XmlAttributes attributes) override;
    void end(std::string_view element) override;
    void text(std::string_view characters) override;

  private:
    std::vector<Run>& into_;
    const std::vector<std::string>& strings_;
    CellPosition next_{-1, 0};  ///< of a cell without an address
    CellPosition at_{};
    std::string type_;
    std::string value_;
    bool in_value_ = false;
};

/// docProps/custom.xml: properties that users and extensions set.
class XlsxProperties final : public XmlEvents {
  public:
    explicit XlsxProperties(WorkbookCells& into) : into_(into) {}
    void start(std::string_view element, XmlAttributes attributes) override;
    void end(std::string_view element) override;
    void text(std::string_view characters) override;

  private:
    WorkbookCells& into_;
    std::string name_;
    std::string value_;
};

}  // namespace slipbark::gather
