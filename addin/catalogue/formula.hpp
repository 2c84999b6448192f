// The one reader of formulas: as a user types them, as the office's API gives them and as a file stores them, with ";"
// between arguments and columns and "|" between rows.
//
// Everything rests on tokens, which lose nothing: put together they are the formula again.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/arguments.hpp"

namespace slipbark::catalogue {

struct FunctionEntry;

/// What stands before the names of our functions: in cells, and in files, where the service belongs to the name.
inline constexpr std::string_view cell_prefix = "REWORK.";
inline constexpr std::string_view file_prefix = "SLIPBARK.REWORK.";

enum class Part {
    blank,      ///< blanks and line ends
    number,     ///< 12, 0.5, 1E-9
    text,       ///< with its quotes, and a quote inside doubled
    error,      ///< #N/A, #DIV/0!
    reference,  ///< C5, A1:B7, A:C, $'My plan'.C5:D7; stored [.C5], [$Plan.C5:.D7]
    name,       ///< a range's, or a constant's such as TRUE
    function,   ///< the name before a "("
    open,       ///< "(" or "{"
    close,      ///< ")" or "}"
    operation,  ///< one letter of an operator: + < % : (a range) ~ (a union) ; | and so on
    broken      ///< what no formula holds: a text without an end, a bracket without its other one
};

struct Token {
    Part part;
    std::string_view text;  ///< as it is written
    std::size_t depth;      ///< open brackets around it; a bracket has the depth of what is around the pair
};
using Tokens = std::span<const Token>;  ///< neighbours in one formula

/// Never throws: where a formula cannot be read, the token there is `broken`.
std::vector<Token> tokens(std::string_view formula);

/// The formula's text from the first to the last of `part`.
std::string_view written(Tokens part);

/// What stands between the `mark`s outside of brackets, blanks around cut; an omitted argument is empty.
std::vector<Tokens> split(Tokens part, std::string_view mark);

struct Call {
    std::string_view function;
    std::vector<Tokens> arguments;
    Tokens rest;  ///< what follows the closing bracket
};
/// The call that `from` begins with; nullopt where it begins with none.
std::optional<Call> call(Tokens from);

/// The cells of an inline array, row by row; none where `part` is not one array and nothing else.
std::vector<std::vector<Tokens>> array_rows(Tokens part);

/// A number, a "text", an inline array of these, or nothing at all. nullopt for anything else, calculations included.
std::optional<Value> literal(Tokens part);
std::optional<Value> literal(std::string_view text);

/// A text or a sheet's name without its quotes, doubled ones inside made single; one without quotes as it is.
std::string unquoted(std::string_view text);

struct Reference {
    struct End {
        std::string_view sheet;    ///< as written, in quotes or not; empty: the formula's own sheet
        std::string_view address;  ///< C5, $C$5; A of A:C; 1 of 1:3
    };
    End first;
    std::optional<End> last;  ///< of a range
};
/// A reference, typed or stored, and nothing else; nullopt for any other text.
std::optional<Reference> reference(std::string_view text);

/// "STICKS" of REWORK.STICKS and SLIPBARK.REWORK.STICKS, whatever their case; empty for a function that is not ours.
std::string_view own_name(std::string_view function);

/// The first call of one of the catalogue's functions inside a formula.
struct FoundCall {
    const FunctionEntry* entry = nullptr;
    std::vector<std::string> arguments;  ///< their texts, blanks around cut; an omitted one is empty
};
/// nullopt where there is none.
std::optional<FoundCall> find_call(std::string_view formula);

/// A formula with each token as `write` has it.
std::string rewritten(std::string_view formula, const std::function<std::string(const Token&)>& write);

/// A formula as the office's API takes it: our functions with their service, all else as it is.
std::string with_service(std::string_view formula);

/// A formula (with or without its "=") as a file stores it: references in brackets, sheets fixed, our functions with
/// their service. `named` gives what is stored for the name of a range.
///
/// throws     std::logic_error where the formula cannot be read; what `named` throws
std::string stored_formula(std::string_view typed, const std::function<std::string(const std::string&)>& named);

}  // namespace slipbark::catalogue
