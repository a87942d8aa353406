// Which rules a label was made by, and what no arithmetic can know.
#include "plan/label_parts.hpp"

namespace waxwright {

namespace {

void add_all(std::vector<std::string>& into, std::initializer_list<std::string_view> lines) {
    for (const std::string_view line : lines)
        into.emplace_back(line);
}

void add_us(Label& label) {
    add_all(label.rules,
            {"Net quantity: 16 CFR 500, in a law school's copy without a date; 500.5, 500.9, "
             "500.6, 500.7, 500.17 and "
             "500.21 from memory. Rounding down: a NIST fact sheet that quotes the "
             "UPLR.",
             "Fire: ASTM F2058-07(2021), by its abstract and a trade association's page; the "
             "standard itself wasn't read, and the words are ours.",
             "Sizes: the United States have no such table for a candle that we know of; those of "
             "the European Union are taken for the drawing, where the vessel is tall enough."});
    add_all(
        label.knows_not,
        {"The hazards of the scent go by other rules in the United States (16 CFR 1500, the "
         "laws of the states), which aren't worked out here: there is no hazard block, and that "
         "doesn't mean that none is asked for."});
}

void add_eu(Label& label) {
    add_all(label.rules,
            {"Hazards: Regulation (EC) No 1272/2008 (CLP) as consolidated on 2025-09-01; what of "
             "it is from memory stands at each line of the working.",
             "Fire: EN 15494:2019, by two public lists of its symbols; the standard itself wasn't "
             "read, and the words are ours.",
             "Net quantity: Directive 76/211/EEC, Annex I; the height of its figures from memory.",
             "Letters: the least x-height of Regulation (EU) 2024/2865, by summaries of it, is "
             "applied already; it is asked for from 2028-01-01 on (an act of 2025, from memory "
             "(EU) 2025/2439), and may change till then."});
    add_all(label.knows_not,
            {"The sentences stand in the language of the country it is sold in; these are English, "
             "and from memory of the regulation's annexes.",
             "A maker outside of the Union needs somebody in it on the label, and general product "
             "safety asks for an electronic address too (from memory of Regulation (EU) 2023/988).",
             "The e-mark is never printed here: whoever bears it has lots weighed as the directive "
             "wants it."});
}

/// None of these editions was read: what is worked out is the text that they grew from.
void add_gb(Label& label) {
    add_all(
        label.rules,
        {"Hazards: GB CLP, which is Regulation (EC) No 1272/2008 as Great Britain retained it "
         "and has changed it since (from memory). That edition wasn't read: where CLP stands "
         "below, "
         "it is the European Union's text as consolidated on 2025-09-01. The two differ by now: "
         "hold it against the text of Great Britain.",
         "Fire: BS EN 15494:2019 (its number from memory), by two public lists of the symbols "
         "of EN 15494; the standard itself wasn't read, and the words are ours.",
         "Net quantity: the average quantity of the Weights and Measures (Packaged Goods) "
         "Regulations 2006, from memory; the tolerable errors by Directive 76/211/EEC, Annex "
         "I, which they carry out; the height of the figures from memory."});
    add_all(
        label.knows_not,
        {"The sentences are from memory of the regulation's annexes.",
         "A maker outside of Great Britain needs somebody in it on the label (from memory).",
         "The e-mark is never printed here: whoever bears it has lots weighed as the regulations "
         "want it."});
}

void add_market_rules(Label& label) {
    switch (label.market) {
    case Market::us:
        return add_us(label);
    case Market::eu:
        return add_eu(label);
    case Market::gb:
        return add_gb(label);
    }
}

} // namespace

void add_rules(Label& label) {
    add_all(label.knows_not,
            {"The supplier's safety data sheet for your own lot goes before everything here. This "
             "knows only what the recipe file says, not what a sheet leaves out or whether it is "
             "the latest.",
             "No test of the finished candle is known here but the test burns that were written "
             "down.",
             "Rules differ by country and change. A person who is trained in them reads the label "
             "and signs for it before it is printed."});
    add_market_rules(label);
}

} // namespace waxwright
