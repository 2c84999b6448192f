#include "composer/entries.hpp"

#include <boost/algorithm/string/join.hpp>
#include <boost/algorithm/string/replace.hpp>
#include <vector>

#include "composer/sheet.hpp"
#include "composer/speaker.hpp"

namespace slipbark::compose::entries {

namespace {

/// `right` is what would be right, a part of a formula.
std::string sentence(const std::string& label, const std::string& name, const std::string& fits, const std::string& was,
                     const std::string& right) {
    // In brackets each is a part of the sentence by itself, wherever a translation puts it.
    return "IF(IFERROR(" + fits + ";FALSE());\"\";(" + label + ")&\" was \"&IFERROR(IF(" + name + "=\"\";\"blank\";" +
           was + ");\"an error\")&\": give \"&(" + right + ")&\".\")";
}

std::string within(const std::string& name, double low, double high) {
    return "AND(ISNUMBER(" + name + ");" + name + ">=" + plain_number(low) + ";" + name + "<=" + plain_number(high) +
           ")";
}

}  // namespace

std::string unfit(const std::string& label, const std::string& name, const Range& range) {
    const double factor = range.per_cent ? 100 : 1;
    const std::string was =
        range.per_cent ? "IF(ISNUMBER(" + name + ");ROUND(100*" + name + ";4)&\" %\";" + name + ")" : name;
    const auto end = [factor](double number, const Speaker& speaker) {
        return boost::algorithm::replace_all_copy(plain_number(factor * number), ".",
                                                  speaker.language().decimal_sign());
    };
    const bool in_words = !range.per_cent && range.unit.starts_with('"') && range.unit.size() > 2 &&
                          range.unit.find('"', 1) == range.unit.size() - 1;
    const std::string unit = in_words ? range.unit.substr(1, range.unit.size() - 2) : "%";
    std::string right =
        "\"" + in_parts([=](Speaker& speaker) {
            const std::string low = end(range.low, speaker);
            const std::string high = end(range.high, speaker);
            if (!in_words && !range.per_cent) return speaker.say(translatable("a number from {1} to {2}"), {low, high});
            return speaker.say(translatable("a number from {1} to {2} {3}"), {low, high, part(speaker, unit)});
        }) +
        "\"";
    // A unit from a cell.
    if (!in_words && !range.per_cent && range.unit != "\"\"") right = "(" + right + ")&\" \"&" + range.unit;
    return sentence(label, name, within(name, range.low, range.high), was, right);
}

std::string day_of(const std::string& name) {
    const auto part = [&](const char* which) {
        return "ORG.LIBREOFFICE.REGEX(" + name + R"(;"^.*?([0-9]{1,2}) ([^ 0-9]+) ([0-9]{4})$";")" + which + "\")";
    };
    const std::string read = "DATE(VALUE(" + part("$3") + ");MATCH(" + part("$2") +
                             R"(;{"Jan";"Feb";"Mar";"Apr";"May";"Jun";"Jul";"Aug";"Sep";"Oct";"Nov";"Dec"};0);VALUE()" +
                             part("$1") + "))";
    const std::string day = "IF(ISNUMBER(" + name + ");INT(" + name + ");" + read + ")";
    return "IFERROR(IF(AND(" + day + ">=36526;" + day + "<=73050);" + day + ";0);0)";
}

std::string unfit_day(const std::string& label, const std::string& name) {
    return sentence(label, name, day_of(name) + ">0", name,
                    "\"a date from 2000 to 2099, as your Calc takes dates or as 20 Sep 2027\"");
}

std::string unfit_word(const std::string& label, const std::string& name,
                       std::initializer_list<std::string_view> words) {
    std::string fits = "OR(";
    for (const std::string_view& word : words) {
        fits.append(name).append("=\"").append(word).append(&word == words.end() - 1 ? "\")" : "\";");
    }
    const std::string right = in_parts([all = std::vector<std::string>(words.begin(), words.end())](Speaker& speaker) {
        std::vector<std::string> said;
        said.reserve(all.size());
        for (const std::string& word : all) said.push_back(part(speaker, word));
        const std::string last = said.back();
        said.pop_back();
        return speaker.say(translatable("{1} or {2}"), {boost::algorithm::join(said, ", "), last});
    });
    return sentence(label, name, fits, name, "\"" + right + "\"");
}

std::string unfit_name(const std::string& label, const std::string& name) {
    return "IF(IFERROR(IF(ISTEXT(" + name + ");AND(LEN(" + name + ")>0;LEN(" + name +
           ")<=80);FALSE());FALSE());\"\";\"" + label + ": give a word or a name of at most 80 letters.\")";
}

std::string asked(const std::string& label, const std::string& name, double below) {
    return "IF(AND(ISNUMBER(" + name + ");N(" + name + ")>0;N(" + name + ")<" + plain_number(below) + ");" + label +
           "&\" is \"&ROUND(100*" + name + ";4)&\" %: is that meant? Type 15 for 15 %.\";\"\")";
}

std::string first_of(const std::string& range) {
    const std::string all = "COM.MICROSOFT.TEXTJOIN(CHAR(10);TRUE();" + range + ")";
    const std::string count = "SUMPRODUCT(--(LEN(" + range + ")>0))";
    return "LEFT(" + all + ";FIND(CHAR(10);" + all + "&CHAR(10))-1)&IF(" + count + ">1;\" And \"&(" + count +
           "-1)&\" more, framed.\";\"\")";
}

}  // namespace slipbark::compose::entries
