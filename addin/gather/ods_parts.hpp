// The parts of an OpenDocument spreadsheet (.ods): content.xml and meta.xml. Elements and attributes are those of
// OASIS OpenDocument 1.3, part 3.
#pragma once

#include "gather/workbook_cells.hpp"
#include "gather/xml_events.hpp"

namespace slipbark::gather {

/// Cells and names, from content.xml. Repeated rows and columns are counted; cells in tables of charts and of other
/// documents are not ours.
class OdsContent final : public XmlEvents {
  public:
    explicit OdsContent(WorkbookCells& into) : into_(into) {}
    void start(std::string_view element, XmlAttributes attributes) override;
    void end(std::string_view element) override;
    void text(std::string_view characters) override;

  private:
    void start_cell(XmlAttributes attributes);
    void end_cell();

    WorkbookCells& into_;
    std::vector<Run>* sheet_ = nullptr;
    std::int64_t row_ = 0;
    std::int64_t row_repeats_ = 1;
    std::int64_t column_ = 0;
    Run cell_;
    bool in_cell_ = false;
    bool shown_counts_ = false;  ///< the value is what the cell shows: a text or an error
    bool is_error_ = false;
    int paragraphs_ = 0;
    int in_paragraph_ = 0;
    int in_note_ = 0;  ///< or in a shape
    int tables_ = 0;
    std::string shown_;
};

/// Properties set by users and extensions, from meta.xml.
class OdsMeta final : public XmlEvents {
  public:
    explicit OdsMeta(WorkbookCells& into) : into_(into) {}
    void start(std::string_view element, XmlAttributes attributes) override;
    void end(std::string_view element) override;
    void text(std::string_view characters) override;

  private:
    WorkbookCells& into_;
    std::string name_;
    std::string value_;
    bool inside_ = false;
};

/// Whether a password is needed, from META-INF/manifest.xml.
class OdsManifest final : public XmlEvents {
  public:
    void start(std::string_view element, XmlAttributes attributes) override;
    void end(std::string_view /*element*/) override {}
    void text(std::string_view /*characters*/) override {}
    [[nodiscard]] bool encrypted() const { return encrypted_; }

  private:
    bool encrypted_ = false;
};

/// Days from 30 December 1899 to "2027-09-20" or "2027-09-20T06:30:00"; nothing for another text.
std::optional<double> days_of_date(std::string_view iso);

}  // namespace slipbark::gather
