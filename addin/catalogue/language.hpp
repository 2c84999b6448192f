// The languages in which people are spoken to. Names of functions, of arguments and of keywords are English in all.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "slipbark/message.hpp"

namespace slipbark::catalogue {

/// One language's texts. They lie in the library; no file is opened for them.
class Language {
  public:
    /// English, in which the texts stand where they are said.
    Language() = default;

    /// tag       as in BCP 47: "es"
    /// messages  what msgfmt makes of the language's .po file; it must live as long as the language. A text that is not
    ///           in it stays English.
    Language(std::string_view tag, std::string_view messages) : tag_(tag), messages_(messages) {}

    [[nodiscard]] std::string_view tag() const { return tag_; }
    /// Whether its sentences are those that stand where they are said.
    [[nodiscard]] bool is_english() const { return messages_.empty(); }

    /// What the messages have for an English text: its translation; where it has forms by count, all of them, with
    /// zeros between them. The empty text gives the messages' own header. Empty where they have nothing.
    [[nodiscard]] std::string_view find(std::string_view english) const;

    [[nodiscard]] std::string translated(Text text) const { return std::string(found(text)); }
    [[nodiscard]] std::string translated(Text pattern, std::vector<MessageValue> places) const;
    [[nodiscard]] std::string translated(const Message& message) const {
        return translated(message.text, message.places);
    }

    /// A number with its thousands told apart: 10,000,000 in English, with blanks that do not break in any other
    /// language (ISO 80000-1).
    [[nodiscard]] std::string grouped(double number) const;

    /// What stands before a number's fraction, as the language writes one half: a point or a comma.
    [[nodiscard]] std::string decimal_sign() const;
    /// What tells thousands apart.
    [[nodiscard]] std::string thousands_sign() const { return is_english() ? "," : "\u00a0"; }

  private:
    [[nodiscard]] std::string_view found(Text text) const;

    std::string_view tag_ = "en";
    std::string_view messages_;
};

/// The languages that are built in, English first.
const std::vector<Language>& languages();

/// The built-in language for a tag: that of the tag itself, or else of the language alone ("es" for "es-MX"); English
/// where there is none.
const Language& language_for(std::string_view tag);

/// What people are spoken to in by cells and commands: English, until speak() has said otherwise.
const Language& menu_language();

/// Sets it for the whole process, which has one interface language. The component says it before its first call.
void speak(const Language& language);

/// The name of the folder with the templates in a language; the host shows those of its own language beside the
/// English.
std::string template_folder(const Language& language);

/// The name of the file with the guide in a language.
std::string guide_file(const Language& language);

}  // namespace slipbark::catalogue
