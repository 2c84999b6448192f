// What people type where the office speaks their locale: the dates that their Calc knows and the form in which the
// workbooks print them give days; what is no date, and 0.15 in a cell of per cent, is named.

#include "folder.hpp"
#include "send.hpp"
#include "texts.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

struct Typed {
    const char* tag;
    std::vector<const char*> dates;  ///< 20 September 2027, as the locale's own users write it
    const char* small;               ///< what the host makes of 0.15 typed into a cell of per cent
};

class Typing : public testing::TestWithParam<Typed> {};

// Every list ends with the form in which the workbooks print dates, with and without the day of the week.
INSTANTIATE_TEST_SUITE_P(Calc, Typing,
                         testing::Values(Typed{"en-US",
                                               {"9/20/2027", "9/20/27", "2027-09-20", "Sep 20, 2027",
                                                "September 20, 2027", "20 Sep 2027", "Mon 20 Sep 2027"},
                                               "0.15%"},
                                         Typed{"en-GB",
                                               {"20/09/2027", "20/9/27", "2027-09-20", "20 September 2027",
                                                "20 Sep 2027", "Mon 20 Sep 2027"},
                                               "0.15%"},
                                         Typed{"de-DE",
                                               {"20.9.2027", "20.09.27", "2027-09-20", "20. September 2027",
                                                "20. Sep. 2027", "20 Sep 2027", "Mon 20 Sep 2027"},
                                               "0,15%"},
                                         Typed{"es-ES",
                                               {"20/9/2027", "20/09/27", "2027-09-20", "20 septiembre 2027",
                                                "20 sep 2027", "20 Sep 2027", "Mon 20 Sep 2027"},
                                               "0,15%"},
                                         Typed{"pt-BR",
                                               {"20/9/2027", "20/09/27", "2027-09-20", "20 setembro 2027",
                                                "20 set 2027", "20 Sep 2027", "Mon 20 Sep 2027"},
                                               "0,15%"},
                                         Typed{"tr-TR",
                                               {"20.9.2027", "20.09.27", "2027-09-20", "20 Eylül 2027", "20 Sep 2027",
                                                "Mon 20 Sep 2027"},
                                               "0,15%"}),
                         [](const auto& typed) { return as_id(typed.param.tag); });

TEST_P(Typing, GivesDaysOrIsNamed) {
    const Folder folder;
    make_profile(folder / "profile", {.locale = GetParam().tag});
    const Office office(start({.bundled = bundled(), .profile = folder / "profile", .words = {}}));
    struct Form {
        const char* workbook;
        const char* date;
        const char* answer;
        const char* said;
    };
    for (const Form& form : {Form{"rework-plan", "graft_date", "first_look", "entries"},
                             Form{"spring-heat", "graft_date", "callus_day", "check_entries"}}) {
        const Book book = office.open_url(file_url(examples() / (std::string(form.workbook) + ".fods")), true, false);
        book.recalculate();
        const Keyboard keyboard(office, book);
        const auto answer = [&] { return book.shown(book.named(form.answer)).number; };
        const auto said = [&] { return book.shown(book.named(form.said)).text; };
        const double as_shipped = answer();
        ASSERT_GT(as_shipped, 0);
        for (const std::string typed : GetParam().dates) {
            keyboard.type(book.named(form.date), "2026-01-05");
            EXPECT_NE(answer(), as_shipped) << "or the next line could not fail";
            keyboard.type(book.named(form.date), typed);
            EXPECT_EQ(answer(), as_shipped) << typed << " " << said();
            EXPECT_EQ(said(), "") << typed;
        }
        keyboard.type(book.named(form.date), "in spring");
        EXPECT_NE(said().find("First day of grafting"), std::string::npos) << said();
        EXPECT_EQ(book.errors(), std::vector<std::string>());
        if (form.workbook != std::string("rework-plan")) continue;
        keyboard.type(book.named(form.date), "2027-09-20");
        keyboard.type(book.named("spare"), GetParam().small);
        EXPECT_NE(said().find("type 15 for 15 %"), std::string::npos) << said();
    }
}

}  // namespace
}  // namespace slipbark::tests
