// Who collects and translates a workbook's texts: in English as they stand in the sources, or in another language.
//
// Sources of workbooks write plain English. Once a workbook is complete, translate.hpp goes through it and translates
// every text of it. So a text stands once, and whoever writes a workbook has nothing to do with languages, but for one
// thing: a text that is put together from parts is a Phrase with a function, which each language calls again.
#pragma once

#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "catalogue/language.hpp"

namespace slipbark::compose {

/// A text of a workbook that waits for translators.
struct CollectedText {
    std::string english;
    std::string where;    ///< workbook, sheet and cell in which it was met first
    std::string file;     ///< examples/spring-heat/heat.tsv:C5; empty where no file says it
    std::string comment;  ///< what stands in its places
};

class TextCollector {
  public:
    explicit TextCollector(const catalogue::Language& language) : language_(language) {}

    [[nodiscard]] const catalogue::Language& language() const { return language_; }

    /// A text of a workbook.
    std::string translate(const std::string& english, const std::string& comment = {});
    /// A sentence of the composer's own, whose places are filled with texts translated before.
    std::string translate(Text pattern, const std::vector<std::string>& places);

    /// What is asked for next stands here.
    void at(std::string where, std::string file = {}) {
        where_ = std::move(where);
        file_ = std::move(file);
    }
    [[nodiscard]] const std::string& place() const { return where_; }
    /// Every text that was asked for, in the order in which they came.
    [[nodiscard]] const std::vector<CollectedText>& collected() const { return collected_; }

  private:
    catalogue::Language language_;
    std::string where_;
    std::string file_;
    std::vector<CollectedText> collected_;
    std::set<std::string> known_;
};

/// A text of a workbook by itself or as a part of another, as `texts` translates it: "Year 3" as "Year {1}".
std::string part(TextCollector& texts, const std::string& english);

/// A text as it stands in English, or one that a function puts together from parts. Equal where the English is.
class Phrase {
  public:
    using Make = std::function<std::string(TextCollector&)>;

    Phrase() = default;
    Phrase(std::string english) : english_(std::move(english)) {}
    Phrase(const char* english) : english_(english) {}
    explicit Phrase(Make make);

    [[nodiscard]] const std::string& english() const { return english_; }
    /// As `texts` translates it, from its parts where it has some.
    [[nodiscard]] std::string in(TextCollector& texts) const { return make_ ? make_(texts) : part(texts, english_); }

    friend bool operator==(const Phrase& a, const Phrase& b) { return a.english_ == b.english_; }
    friend auto operator<=>(const Phrase& a, const Phrase& b) { return a.english_ <=> b.english_; }

  private:
    std::string english_;
    Make make_;
};

/// Two sentences.
Phrase join_sentences(const Phrase& first, const Phrase& second);

/// Whether a text has words in it, and not only signs, numbers, letters that stand alone and names of functions.
bool has_words(std::string_view text);

}  // namespace slipbark::compose
