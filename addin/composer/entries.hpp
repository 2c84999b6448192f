// Parts of formulas that say what does not fit in an entry. A validation keeps a wrong entry out where it is typed;
// what is pasted, cleared or left over passes it by, so a sheet's Checks look again.
//
// Every part gives "" where nothing is to be said. A label, a unit and a name are parts of formulas themselves:
// "\"Area\"" or a cell's name.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace slipbark::compose::entries {

/// A number's range.
struct Range {
    double low;
    double high;
    std::string unit = "\"\"";
    bool per_cent = false;  ///< a share, shown and typed as per cent
};

/// The sentence that says what would be right, where the named cell does not hold a number of that range.
std::string unfit(const std::string& label, const std::string& name, const Range& range);

/// The day that a cell holds, as a number: a date, or a text as the workbooks print dates ("20 Sep 2027", "Mon 20 Sep
/// 2027"), which not every locale of the host takes for one. 0 where it is none from 2000 to 2099.
std::string day_of(const std::string& name);

/// The sentence for a cell that holds no such day.
std::string unfit_day(const std::string& label, const std::string& name);

/// The same for one of some words.
std::string unfit_word(const std::string& label, const std::string& name,
                       std::initializer_list<std::string_view> words);

/// The same for a word or a name that must be there.
std::string unfit_name(const std::string& label, const std::string& name);

/// A question, where the named cell holds a share so small that it may have been typed for per cent.
std::string asked(const std::string& label, const std::string& name, double below);

/// The first of the sentences in a range of cells, and how many more there are.
std::string first_of(const std::string& range);

}  // namespace slipbark::compose::entries
