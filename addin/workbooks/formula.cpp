#include "workbooks/formula.hpp"

#include <cctype>
#include <regex>
#include <stdexcept>

namespace slipbark::compose {

namespace {

bool starts_word(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0 || c == '$' || c == '_'; }
bool in_word(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '$' || c == '_' || c == '.'; }

const std::regex& address_form() {
    static const std::regex form(R"((?:\$?([A-Za-z]+)\.)?(\$?[A-Za-z]{1,3}\$?[0-9]{1,7}))");
    return form;
}

/// "C5" as ".C5", "Plan.C5" as "$Plan.C5".
std::string stored_address(const std::smatch& parts) {
    std::string address;
    if (parts[1].matched) address.append("$").append(parts[1].str());
    return address.append(".").append(parts[2].str());
}

/// Reads `typed` from left to right and writes what is stored.
class Reader {
  public:
    Reader(std::string_view typed, const std::function<std::string(const std::string&)>& named)
        : typed_(typed), named_(named) {}

    std::string read() {
        while (at_ < typed_.size()) {
            const char next = typed_[at_];
            if (next == '"') {
                quoted();
            } else if (starts_word(next)) {
                word();
            } else if (std::isdigit(static_cast<unsigned char>(next)) != 0) {
                stored_ += take(in_word);  // 2, 0.5, 1E-9
            } else {
                stored_ += next;
                ++at_;
            }
        }
        return stored_;
    }

  private:
    template <class Wanted>
    std::string take(Wanted wanted) {
        const std::size_t from = at_;
        while (at_ < typed_.size() && wanted(typed_[at_])) ++at_;
        return std::string(typed_.substr(from, at_ - from));
    }

    void quoted() {
        const std::size_t end = typed_.find('"', at_ + 1);
        if (end == std::string_view::npos) throw std::logic_error("a quoted text does not end");
        stored_ += typed_.substr(at_, end + 1 - at_);  // a doubled quote reads as two texts side by side
        at_ = end + 1;
    }

    void word() {
        const std::string text = take(in_word);
        if (at_ < typed_.size() && typed_[at_] == '(') {
            if (text.starts_with("REWORK.")) stored_ += "SLIPBARK.";
            stored_ += text;
            return;
        }
        std::smatch first;
        if (!std::regex_match(text, first, address_form())) {
            stored_ += named_(text);
            return;
        }
        stored_.append("[").append(stored_address(first));
        if (at_ < typed_.size() && typed_[at_] == ':') {
            ++at_;
            const std::string other = take(in_word);
            std::smatch last;
            if (!std::regex_match(other, last, address_form())) throw std::logic_error("no address after \":\"");
            stored_.append(":").append(stored_address(last));
        }
        stored_ += "]";
    }

    std::string_view typed_;
    const std::function<std::string(const std::string&)>& named_;
    std::size_t at_ = 0;
    std::string stored_;
};

}  // namespace

std::string stored_formula(std::string_view typed, const std::function<std::string(const std::string&)>& named) {
    if (typed.starts_with('=')) typed.remove_prefix(1);
    return Reader(typed, named).read();
}

bool looks_like_address(std::string_view text) {
    return std::regex_match(text.begin(), text.end(), std::regex(R"([A-Za-z]{1,3}[0-9]+)"));
}

}  // namespace slipbark::compose
