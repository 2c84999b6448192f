// Writes the spreadsheet side from the catalogue: IDL, function list of the host, glue, contract list, reference
// page and guide.

#include <algorithm>
#include <boost/algorithm/string/replace.hpp>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>
#include <stdexcept>

#include "catalogue/catalogue.hpp"
#include "catalogue/support.hpp"
#include "catalogue/words.hpp"
#include "generate/guide.hpp"
#include "generate/registry_file.hpp"

namespace {

using namespace slipbark;
using namespace slipbark::catalogue;
using slipbark::generate::add_component;
using slipbark::generate::add_node;
using slipbark::generate::add_property;
using slipbark::generate::ptree;

constexpr std::string_view service = "slipbark.Rework";

/// The interface language knows no underscores: buds_per_scion -> budsPerScion.
std::string idl_name(std::string_view name) {
    std::string camel;
    bool capital = false;
    for (const char letter : name) {
        if (letter == '_') {
            capital = true;
        } else {
            camel += capital ? static_cast<char>(std::toupper(static_cast<unsigned char>(letter))) : letter;
            capital = false;
        }
    }
    return camel;
}

std::string idl_type(const Parameter& parameter) {
    switch (parameter.kind) {
        case Kind::number:
        case Kind::date:
            return "double";
        case Kind::text:
            return "string";
        case Kind::block:
            return "sequence<sequence<any> >";
        case Kind::cells:
            return "com::sun::star::table::XCellRange";
        case Kind::any:
            return "any";
        case Kind::rest:
            return "sequence<any>";
    }
    throw std::logic_error("unknown kind");
}

std::string glue_type(const Parameter& parameter) {
    switch (parameter.kind) {
        case Kind::number:
        case Kind::date:
            return "double";
        case Kind::text:
            return "const rtl::OUString&";
        case Kind::block:
            return "const Block&";
        case Kind::cells:
            return "const CellRange&";
        case Kind::any:
            return "const css::uno::Any&";
        case Kind::rest:
            return "const Row&";
    }
    throw std::logic_error("unknown kind");
}

struct ResultType {
    std::string idl, glue;
};

ResultType result_type(Gives gives) {
    switch (gives) {
        case Gives::number:
        case Gives::date:
            return {"double", "double"};
        case Gives::text:
            return {"string", "rtl::OUString"};
        case Gives::table:
            return {"sequence<sequence<any> >", "Block"};
        case Gives::maybe_number:
        case Gives::maybe_date:
        case Gives::maybe_table:
            return {"any", "css::uno::Any"};
    }
    throw std::logic_error("unknown result");
}

std::string idl() {
    std::ostringstream out;
    out << "module slipbark {\n";
    for (const Area& area : areas()) {
        out << "\ninterface " << area.interface_name() << " {\n";
        for (const FunctionEntry& entry : area.entries) {
            out << "    " << result_type(entry.gives).idl << " " << entry.method << "(";
            const char* comma = "";
            if (entry.needs_document) {
                out << "[in] com::sun::star::beans::XPropertySet document";
                comma = ", ";
            }
            for (std::size_t at = 0; at < entry.parameters.size(); ++at) {
                out << comma << "[in] " << idl_type(entry.parameters[at]) << " " << idl_name(entry.arguments[at].name);
                comma = ", ";
            }
            out << ");\n";
        }
        out << "};\n";
    }
    out << "\n};\n";
    return out.str();
}

std::string glue() {
    // The helpers of cppuhelper take 13 interfaces at most; further ones are put on top.
    constexpr std::size_t in_base = 12;
    const std::size_t above = areas().size() + 1 > in_base ? areas().size() + 1 - in_base : 0;
    std::ostringstream out;
    out << "#pragma once\n\n#include <com/sun/star/lang/XServiceInfo.hpp>\n#include <cppuhelper/implbase"
        << areas().size() + 1 - above << ".hxx>\n";
    if (above > 0) out << "#include <cppuhelper/implbase" << above << ".hxx>\n";
    for (const Area& area : areas()) out << "#include <slipbark/" << area.interface_name() << ".hpp>\n";
    out << "\n#include \"component/convert.hpp\"\n";
    // What an area's functions are declared in, with the columns of their answers; those about the functions
    // themselves are the catalogue's.
    for (const Area& area : areas()) {
        const bool has_columns = std::any_of(area.entries.begin(), area.entries.end(),
                                             [](const FunctionEntry& entry) { return entry.has_columns; });
        const char* room = has_columns ? "catalogue/entries/" : area.name == "support" ? "catalogue/" : "slipbark/";
        out << "#include \"" << room << area.name << ".hpp\"\n";
    }
    out << "\nnamespace slipbark::addin {\n\nclass Glue : public ";
    if (above > 0) out << "cppu::ImplInheritanceHelper" << above << "<";
    out << "cppu::WeakImplHelper" << areas().size() + 1 - above << "<";
    for (std::size_t at = 0; at < areas().size(); ++at) {
        out << "::slipbark::" << areas()[at].interface_name() << (above > 0 && at + 1 == in_base ? ">, " : ", ");
    }
    out << "css::lang::XServiceInfo> {\n  public:\n";
    for (const Area& area : areas()) {
        for (const FunctionEntry& entry : area.entries) {
            const std::string result = result_type(entry.gives).glue;
            out << "    " << result << " SAL_CALL " << entry.method << "(";
            const char* comma = "";
            if (entry.needs_document) {
                out << "const Document& document";
                comma = ", ";
            }
            std::string passed;
            std::string names;
            for (std::size_t at = 0; at < entry.parameters.size(); ++at) {
                out << comma << glue_type(entry.parameters[at]) << " " << entry.arguments[at].name;
                passed.append(", ").append(entry.arguments[at].name);
                names.append(at == 0 ? "\"" : ", \"").append(entry.arguments[at].name).append("\"");
                comma = ", ";
            }
            out << ") override {\n        static constexpr std::array<std::string_view, " << entry.arguments.size()
                << "> names{" << names << "};\n        return call<" << result << ">(&" << entry.symbol << ", names, "
                << (entry.needs_document ? "null_date_of(document)" : "Day{}") << passed << ");\n    }\n";
        }
    }
    out << "};\n\n}  // namespace slipbark::addin\n";
    return out.str();
}

/// Every method of the glue by its name, with values of any kind, for the test that compares it with WHY.
std::string glue_calls() {
    std::ostringstream out;
    out << "#pragma once\n\n#include \"glue.hpp\"\n\nnamespace slipbark::addin {\n\n"
           "struct GlueCall {\n    const char* method;\n"
           "    css::uno::Any (*call)(Glue& glue, const Document& document, const Row& given);\n};\n\n"
           "inline const GlueCall glue_calls[]{\n";
    for (const Area& area : areas()) {
        for (const FunctionEntry& entry : area.entries) {
            // What is a cell range cannot be given as a value.
            const bool takes_other = std::ranges::any_of(entry.parameters, [](const Parameter& one) {
                return one.kind == Kind::rest || one.kind == Kind::cells;
            });
            if (entry.parameters.empty() || takes_other) continue;
            out << "    {\"" << entry.method << "\", [](Glue& glue, const Document& document, const Row& given) {\n"
                << "         static_cast<void>(document);\n         return css::uno::Any(glue." << entry.method << "("
                << (entry.needs_document ? "document" : "");
            for (std::size_t at = 0; at < entry.parameters.size(); ++at) {
                const Kind kind = entry.parameters[at].kind;
                const std::string given = "given[" + std::to_string(at) + "]";
                out << (at > 0 || entry.needs_document ? ", " : "");
                if (kind == Kind::any) {
                    out << given;
                } else {
                    const bool text = kind == Kind::text;
                    out << given << ".get<"
                        << (text                  ? "rtl::OUString"
                            : kind == Kind::block ? "Block"
                                                  : "double")
                        << ">()";
                }
            }
            out << "));\n     }},\n";
        }
    }
    out << "};\n\n}  // namespace slipbark::addin\n";
    return out.str();
}

std::string summary(const FunctionEntry& entry, const Language& language) {
    // Where the example shows a sentence, its own full stop ends this one, too.
    std::string shows = example_shows(entry, language);
    if (shows.ends_with('.')) shows.pop_back();
    return language.translated(translatable("{1} Gives: {2}. Example: {3} shows {4}."),
                               {language.translated(entry.texts.does), language.translated(entry.texts.gives),
                                "=" + std::string(entry.texts.example), shows});
}

/// The host's list of functions, for its wizard.
std::string xcu(const std::vector<Language>& languages) {
    ptree file;
    ptree& root = add_component(file, "CalcAddIns");
    ptree& functions =
        add_node(add_node(add_node(root, "AddInInfo", false), std::string(service)), "AddInFunctions", false);
    for (const Area& area : areas()) {
        for (const FunctionEntry& entry : area.entries) {
            ptree& function = add_node(functions, std::string(entry.method));
            add_property(function, "DisplayName", languages, [&](const Language&) { return entry.cell_name(); });
            add_property(function, "Description", languages,
                         [&](const Language& language) { return summary(entry, language); });
            add_property(function, "Category", "Add-In");
            ptree& parameters = add_node(function, "Parameters", false);
            for (const Argument& argument : entry.arguments) {
                ptree& parameter = add_node(parameters, idl_name(argument.name));
                add_property(parameter, "DisplayName", languages,
                             [&](const Language&) { return std::string(argument.name); });
                add_property(parameter, "Description", languages,
                             [&](const Language& language) { return help_in_words(argument, language); });
            }
        }
    }
    std::ostringstream out;
    generate::write(out, file);
    return out.str();
}

/// One line per method. What stands here is what saved workbooks hold: it may grow, never change.
std::string contract() {
    std::ostringstream out;
    for (const Area& area : areas()) {
        for (const FunctionEntry& entry : area.entries) {
            out << service << "." << entry.method << "(";
            const char* comma = "";
            for (std::size_t at = 0; at < entry.parameters.size(); ++at) {
                const bool optional = entry.parameters[at].optional;
                out << comma << (optional ? "[" : "") << idl_type(entry.parameters[at]) << " "
                    << entry.arguments[at].name << (optional ? "]" : "");
                comma = ", ";
            }
            out << ") -> " << result_type(entry.gives).idl << "\n";
        }
    }
    return out.str();
}

std::string in_cell(std::string_view text) { return boost::replace_all_copy(std::string(text), "|", "\\|"); }

std::string reference() {
    std::ostringstream out;
    out << "# Function reference\n\n"
           "Made from the catalogue by the build; do not edit. Type the names as they stand here. Arguments in\n"
           "[brackets] may be left out. `;` stands between arguments; `{1|2|3}` is a column of three cells.\n"
           "A bad argument shows Err:502, a sound question without an answer #N/A; `REWORK.WHY` says the reason.\n"
           "Results are plain numbers: format cells that hold dates as dates and fractions as per cent.\n";
    for (const Area& area : areas()) {
        out << "\n## " << area.title.english() << "\n";
        for (const FunctionEntry& entry : area.entries) {
            out << "\n### " << entry.cell_name() << "\n\n`" << call_form(entry) << "`\n\n"
                << entry.texts.does.english() << "\n\nGives: " << entry.texts.gives.english() << ".\n";
            if (!entry.texts.no_answer.empty())
                out << "\nNo answer (#N/A): " << entry.texts.no_answer.english() << "\n";
            if (!entry.arguments.empty()) {
                out << "\n| argument | meaning | unit | range |\n|---|---|---|---|\n";
                for (const Argument& argument : entry.arguments) {
                    out << "| " << argument.name << " | " << in_cell(argument.meaning.english()) << " | "
                        << in_cell(unit_in_words(argument)) << " | " << in_cell(range_in_words(argument)) << " |\n";
                }
            }
            out << "\nExample: `=" << entry.texts.example << "` shows `" << entry.texts.shows
                << "`\n\nSource: " << entry.texts.source.english() << ".\n";
        }
    }
    return out.str();
}

std::string read(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) throw std::runtime_error("cannot read " + path.string());
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

void write(const std::filesystem::path& path, const std::string& text) {
    std::ofstream out(path, std::ios::binary);
    out << text;
    out.close();
    if (!out) throw std::runtime_error("cannot write " + path.string());
}

}  // namespace

int main(int count, char** words) {
    try {
        if (count != 3 && count != 5) throw std::invalid_argument("usage: slipbark_generate FOLDER FRAME [TAG MO]");
        const std::vector<std::string> further(words + 3, words + count);
        std::string messages;
        const auto all = generate::languages_with(further, messages);
        const std::filesystem::path folder = words[1];
        write(folder / "slipbark.idl", idl());
        write(folder / "CalcAddIns.xcu", xcu(all));
        write(folder / "glue.hpp", glue());
        write(folder / "glue_calls.hpp", glue_calls());
        write(folder / "contract.txt", contract());
        write(folder / "reference.md", reference());
        const std::string frame = read(words[2]);
        for (const Language& language : all) {
            write(folder / guide_file(language), generate::guide(frame, language));
        }
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
        return 1;
    }
    return 0;
}
