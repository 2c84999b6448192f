// Notes: what stands behind the figures, and what to mind.
#include "composer/look.hpp"
#include "composer/rework_plan/book.hpp"

namespace slipbark::compose::block {

void notes(Workbook& book) {
    look::Notes text(book);
    text.heading("The example is invented")
        .note(
            "Kestrel Flat, its block, the pomelo Ember Moon and all counts, prices and the money they are in are made "
            "up. Overwrite the framed, tinted cells with your own; lots, rows and dates that you have not typed follow "
            "the block.");
    text.errors().note(
        "A pasted text or a number out of range: the first entry that does not fit is named under the summary on sheet "
        "Plan and framed where it stands. Until it is right, what hangs on it stays blank.");
    text.heading("How the plan adds up")
        .note(
            "The crop goes with the share of the grafts wanted on a tree that live (TREESHARE), not with the chance of "
            "a "
            "tree to have one: a tree with half its frame bears half. Until something is counted on sheet Rows this "
            "share is expected from take, store and clustering; from the first count on, the counts are in use, and "
            "sheet Money says which.")
        .note(
            "What is regrafted a year later bears a year later, and its wood, days, materials and visits are paid in "
            "that year: so many grafts as give the share that you expect to live, at the take seen.")
        .note(
            "A scion of several buds lives if one bud lives: with a share a of the buds alive, 1 - (1 - a)^buds of the "
            "scions have one, if buds die one by one (assumption). Where whole sticks die together choose \"as its "
            "buds "
            "do\" on sheet Orders. Lots count by their grafts.")
        .note(
            "First harvest is in the month given on sheet Plan; ages at harvest are read from the curve on sheet "
            "Defaults. First and second crop are the first harvests after their stages' earliest dates, on sheets "
            "Calendar and Money alike.")
        .note(
            "Grafts that pay best: what a tree with its whole frame is worth today, from the crop over the years of "
            "sheet Money less picking, against wood, pay and materials of one more graft. Regrafting is not counted "
            "in it, which favours many grafts.");
    text.heading("Where the figures come from")
        .note("Calendar: see the lines of sheet Defaults. The sign on the tree outranks the date.")
        .note(
            "Yield by year: some 20 kg at 33 months and 50 kg a year later, of 100 kg mature, is common practice; the "
            "other points of the curve are assumptions.")
        .note(
            "Life of budwood: at room temperature after Lopes & Zica (Pesquisa Agropecuaria Tropical 4(1):40-46, sweet "
            "orange); cool after a storage trial at 5 degrees C in polyethylene, more than 95 % after 74 days. Other "
            "crops and other stores differ.")
        .note(
            "Grafts round a stub: one for each 7.5 cm of circumference, four at most; common practice is two on a "
            "small "
            "stub and three on a big one. Paint and water one to one: common practice. From memory: 1.5 to 3 litres of "
            "mix on a bared mature tree, 4 to 8 m2 of rough bark a litre, 0.6 to 1 m of tape a stub. Film of sealing "
            "compound, grafts a day, minutes a tree and prices: assumptions for this scene.")
        .note(
            "Clustering within a tree: grafts of a weak tree, a bad day or a poor stick fail together. 0 would be "
            "grafts "
            "that fail one by one; 0.1 is an assumption. With clustering more trees have no live graft than take alone "
            "suggests.")
        .note(
            "Limits of a take: Wilson's interval. Rows of trees are taken as clusters, so that what a row has in "
            "common "
            "widens the limits. The steadied take draws small counts towards the mean of all grafters: three live of "
            "three is no proof of a master.")
        .note(
            "Nurse limb: common practice leaves a quarter to a third of the canopy until the grafts carry the tree; "
            "trees of seven years or younger may be cut back whole.");
    text.heading("More rows than there is room for")
        .note(
            "Sheet Rows holds 200. For more, give more trees a row, or insert lines above its last one and copy a "
            "whole "
            "line into them: the named ranges grow with it.");
    text.close();
}

}  // namespace slipbark::compose::block
