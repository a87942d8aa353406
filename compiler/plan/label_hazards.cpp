// The hazard block of a label: the supplier's own texts, or what the arithmetic gives, or a line
// that says that it isn't worked out.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "plan/label_parts.hpp"
#include "reckon/compare.hpp"
#include "reckon/label/classify.hpp"
#include "reckon/label/contents.hpp"
#include "reckon/label/label_elements.hpp"
#include "reckon/label/less_scent.hpp"
#include "reckon/label/small_package.hpp"
#include "reckon/label/supplier_texts.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr int decimals = 4; // of a percent, as it is worked with

std::string percent(double fraction) {
    return show_number(fraction * 100, decimals) + " %";
}

std::string_view signal_word(Signal signal) {
    switch (signal) {
    case Signal::danger:
        return "DANGER";
    case Signal::warning:
        return "WARNING";
    case Signal::none:
        return "";
    }
    return "";
}

// By the arithmetic.

template <typename Sentence>
std::vector<LabelSentence> sentences(const std::vector<Sentence>& all,
                                     const std::vector<Sentence>& may_go) {
    std::vector<LabelSentence> lines;
    lines.reserve(all.size());
    for (const Sentence one : all)
        lines.push_back(
            {std::string(code(one)), std::string(text(one)), std::ranges::count(may_go, one) != 0});
    return lines;
}

/// "camphene (Flam. Sol. 2), limonene (Flam. Liq. 3)"
std::string flammables(const Classification& classified) {
    std::string names;
    for (const NotReckoned& one : classified.not_reckoned)
        names +=
            fmt::format("{}{} ({})", names.empty() ? "" : ", ", one.name, abbreviation(one.hazard));
    return names;
}

/// Those that bring an M-factor into a sum that nobody gave.
void tell_missing_m(const Classification& classified, Label& label) {
    std::vector<std::string> names;
    for (const Worked& test : classified.worked) {
        for (const WorkedTerm& term : test.terms)
            if (term.counts && term.m_not_given && std::ranges::count(names, term.name) == 0)
                names.push_back(term.name);
    }
    if (!names.empty())
        label.notes.push_back(fmt::format("No M-factor is given for {}; 1 is taken. A higher one "
                                          "makes it graver for the water: look into the sheet.",
                                          fmt::join(names, ", ")));
}

/// In the European Union only.
void want_ufi(Label& label) {
    if (label.market != Market::eu) return;
    label.ufi_blank = true;
    label.missing.emplace_back("the UFI");
    label.notes.emplace_back("It has a class of health: such a mixture is notified to the poison "
                             "centres, and its label has a UFI (from memory of Article 45 and "
                             "Annex VIII). You get it with the notification.");
}

/// What a person may want to choose otherwise.
void tell_cuts(const Classification& classified, const LabelTexts& texts, Label& label) {
    const auto cut = precautions_cut(classified.classes, texts);
    if (!cut.empty()) {
        std::vector<std::string_view> codes;
        codes.reserve(cut.size());
        for (const Precaution one : cut)
            codes.push_back(code(one));
        label.notes.push_back(fmt::format("Six precautions at most are chosen (from memory of "
                                          "Article 28(3)). These go with its classes too: {}.",
                                          fmt::join(codes, ", ")));
    }
    if (classified.named.size() > most_named)
        label.notes.push_back(fmt::format(
            "It names {} substances. Normally {} are enough (from memory of Article 18(3)): which, "
            "is for you to choose.",
            classified.named.size(), most_named));
}

/// Those of which nobody says whether their effects on skin and eyes add up, where it may matter.
void tell_not_additive(const Contents& contents, const Classification& classified, Label& label) {
    std::vector<std::string> names;
    const auto is_unsaid = [&](const std::string& name) {
        return std::ranges::any_of(contents.candle, [&](const Ingredient& one) {
            return one.name == name && one.additivity_unsaid;
        });
    };
    for (const Worked& test : classified.worked) {
        if (!is_for_skin_or_eyes(test.gives) || test.outcome != TestOutcome::not_reached) continue;
        for (const WorkedTerm& term : test.terms)
            if (term.counts && is_unsaid(term.name) && std::ranges::count(names, term.name) == 0)
                names.push_back(term.name);
    }
    if (!names.empty())
        label.notes.push_back(fmt::format(
            "Under the limit of a sum for skin or eyes: {}. The sum isn't good for aldehydes, "
            "phenols, strong acids or bases: one of them can be enough from 1 or 3 %. If one of "
            "these is such, its `substance` says `adds-up: no`; ask the supplier (from memory of "
            "CLP 3.2.3.3.4 and 3.3.3.3.4).",
            fmt::join(names, ", ")));
}

/// Those that bring a STOT SE 3 without saying whether it irritates or makes drowsy: no label has
/// both sentences for one.
void tell_which_stot(const Contents& contents, const Classification& classified, Label& label) {
    const std::vector<std::string> names = without_sentence(contents.candle, classified);
    if (names.empty()) return;
    label.notes.push_back(fmt::format(
        "It is STOT SE 3 by {}, and nobody says whether that is H335, it irritates, or H336, it "
        "makes drowsy. Write `stot-se-3-h335` or `stot-se-3-h336` as the sheet has it. Till then "
        "{} stands across it.",
        fmt::join(names, ", "), ask_supplier_words));
    label.ask_supplier = true;
}

void put_worked_out(const Contents& contents, const Classification& classified, Label& label) {
    LabelHazards& block = label.hazards;
    block.source = HazardSource::worked_out;
    // Where nobody knows how much is in it, nothing is left off; nor where it may be more.
    const double held_ml = label.sizes.contents_known ? label.sizes.most_ml : 2e9;
    const LabelTexts texts = label_texts(classified, held_ml);
    block.hazards = sentences(classified.statements, texts.statements_left_off);
    std::vector<Precaution> chosen = texts.precautions;
    chosen.insert(chosen.end(), texts.precautions_left_off.begin(),
                  texts.precautions_left_off.end());
    std::ranges::sort(chosen);
    block.precautions = sentences(chosen, texts.precautions_left_off);
    block.pictograms = classified.pictograms;
    block.signal = signal_word(classified.signal);
    block.named = classified.named;
    block.euh208 = euh208(classified);
    block.none = block.hazards.empty() && block.euh208.empty();
    if (classified.classes.empty()) block.precautions.clear(); // P102 and P501 go with a class
    if (classified.for_health) want_ufi(label);
    tell_cuts(classified, texts, label);
    tell_not_additive(contents, classified, label);
    tell_which_stot(contents, classified, label);
    tell_missing_m(classified, label);
    if (!classified.not_reckoned.empty())
        label.notes.push_back(fmt::format("By themselves these can burn: {}. What class that gives "
                                          "the candle no sum says; it has to be measured.",
                                          flammables(classified)));
}

// By the supplier.

std::vector<LabelSentence> sentences(const std::vector<SupplierSentence>& all) {
    std::vector<LabelSentence> lines;
    lines.reserve(all.size());
    for (const SupplierSentence& one : all)
        lines.push_back({one.code, one.text});
    return lines;
}

/// What goes with its hazard sentences by the table, and isn't among the supplier's texts.
void look_for_gaps(Label& label) {
    const LabelHazards& block = label.hazards;
    for (std::size_t i = 0; i < hazard_class_words().size(); ++i) {
        const ClassFacts& of = facts(static_cast<HazardClass>(i));
        const bool there = std::ranges::any_of(block.hazards, [&](const LabelSentence& line) {
            return line.code == code(of.statement);
        });
        std::string lacks;
        if (there && of.pictogram > 0 && std::ranges::count(block.pictograms, of.pictogram) == 0)
            lacks = fmt::format("GHS0{}", of.pictogram);
        if (there && of.signal != Signal::none && block.signal.empty())
            lacks += fmt::format("{}{}", lacks.empty() ? "" : " and ", signal_word(of.signal));
        const std::string note = fmt::format("With {} goes {} as a rule, and the supplier's texts "
                                             "don't have that: look again.",
                                             code(of.statement), lacks);
        if (!lacks.empty() && std::ranges::count(label.notes, note) == 0)
            label.notes.push_back(note);
    }
}

/// What the sums of what is known would say, and the supplier's texts don't. What is typical of a
/// kind of oil and of no lot is no reason to stop.
void compare_supplier(const Contents& contents, const Classification& classified,
                      const SupplierTexts& said, Label& label) {
    const auto lacks = not_said(classified, said);
    for (const std::string_view one : lacks)
        label.notes.push_back(fmt::format("By what is known of its contents it would have {}, "
                                          "which the supplier's label doesn't: ask.",
                                          one));
    label.ask_supplier = !lacks.empty() && contents.typical.empty();
    if (label.ask_supplier)
        label.notes.push_back(fmt::format("So {} stands across it. Don't print it before the "
                                          "supplier has answered.",
                                          ask_supplier_words));
}

void put_supplier(const Model& model, BlockId oil, const Contents& contents,
                  const Classification& classified, Label& label) {
    LabelHazards& block = label.hazards;
    block.source = HazardSource::supplier;
    const SupplierTexts said = read_supplier(model.text_list(oil, Key::supplier_label));
    block.pictograms = said.pictograms;
    block.signal = said.signal;
    block.hazards = sentences(said.hazards);
    block.precautions = sentences(said.precautions);
    block.none = said.none;
    const auto* most = model.get<Load>(oil, Key::supplier_label_load);
    label.notes.push_back(fmt::format(
        "The hazard block is the label that the supplier of {} gives for up to {} of {}; nothing "
        "is added to it or left off.",
        model.name(oil), show_percent(most->fraction),
        most->basis == Basis::wax ? "the wax" : "the total"));
    for (const std::string& fault : said.faults)
        label.notes.push_back(fmt::format("In the supplier's texts {}: look again.", fault));
    if (is_for_health(said)) want_ufi(label);
    look_for_gaps(label);
    compare_supplier(contents, classified, said, label);
}

// What isn't known.

/// "1.2 % that lavender doesn't tell, 0.3 % sea-balm in lavender, whose classes nobody says"
std::string unknown_words(const Model& model, const Contents& contents) {
    std::vector<std::string> parts;
    for (const UnsaidPart& part : contents.unsaid)
        parts.push_back(fmt::format("{} that {} doesn't tell", percent(part.of_candle),
                                    model.name(part.material)));
    for (const UnclassedPart& part : contents.unclassed)
        parts.push_back(fmt::format("{} {} in {}, whose classes nobody says",
                                    percent(part.of_candle), model.name(part.substance),
                                    model.name(part.material)));
    return fmt::format("{}", fmt::join(parts, ", "));
}

/// Of whose contents something is unknown, each once.
std::string names_of(const Model& model, const Contents& contents) {
    std::vector<std::string_view> names;
    const auto add = [&](BlockId material) {
        if (std::ranges::count(names, model.name(material)) == 0)
            names.push_back(model.name(material));
    };
    for (const UnsaidPart& part : contents.unsaid)
        add(part.material);
    for (const UnclassedPart& part : contents.unclassed)
        add(part.material);
    return fmt::format("{}", fmt::join(names, ", "));
}

void put_not_worked_out(const Model& model, const Reckoning& r, const Contents& contents,
                        const Classification& classified, Label& label) {
    LabelHazards& block = label.hazards;
    block.source = HazardSource::not_worked_out;
    // Up to the next hundredth: a label for less would not do.
    const std::string load =
        show_number(std::ceil(contents.load_of_total * 1e4 - 1e-6) / 100, 2) + " % of total";
    if (r.in.oils().empty())
        block.instead = fmt::format("not worked out: ask the supplier of {} what is in it",
                                    names_of(model, contents));
    else
        block.instead = fmt::format("not worked out: ask the supplier for the label at {}", load);
    if (classified.unknown > 0)
        label.notes.push_back(fmt::format("{} of the candle is unknown: {}.",
                                          percent(classified.unknown),
                                          unknown_words(model, contents)));
    tell_not_additive(contents, classified, label);
    if (!classified.statements.empty() || !classified.sensitisers.empty()) {
        std::vector<std::string_view> codes;
        for (const Statement one : classified.statements)
            codes.push_back(code(one));
        if (!classified.sensitisers.empty()) codes.push_back("EUH208");
        label.notes.push_back(
            fmt::format("What is known of it brings {} at least.", fmt::join(codes, ", ")));
    }
}

// The working.

void add_mixture(const Contents& contents, Label& label) {
    LabelWorking worked{"What is in the candle", {}};
    for (const Ingredient& one : merged(contents.candle)) {
        std::vector<std::string_view> classes;
        for (const HazardClass hazard : one.classes)
            classes.push_back(abbreviation(hazard));
        worked.lines.push_back(fmt::format(
            "{}: {}, {}", one.name, percent(one.fraction),
            one.unknown       ? "unknown"
            : classes.empty() ? "no class"
                              : fmt::format("{}{}", fmt::join(classes, ", "),
                                            one.not_additive ? "; does not add up" : "")));
    }
    label.worked.push_back(std::move(worked));
}

/// Who is a sensitiser, and how much of it sets off somebody who is sensitised already.
void add_sensitisers(const Contents& contents, const Classification& classified, Label& label) {
    const auto all = sensitisers_of(contents.candle);
    const bool beside_a_class = // H317 or H334, which name them too
        classified.sensitisers.empty() && std::ranges::any_of(all, &Sensitiser::is_named);
    LabelWorking worked{beside_a_class ? "Sensitisers that are named" : "EUH208", {}};
    for (const Sensitiser& one : all)
        worked.lines.push_back(fmt::format("{}: {}, {} {}{}: {}", one.name, percent(one.fraction),
                                           one.is_named ? "at least" : "under", percent(one.from),
                                           one.own_limit ? ", a tenth of a limit of its own" : "",
                                           one.is_named ? "named" : "not named"));
    if (worked.lines.empty()) return;
    worked.lines.emplace_back(
        "from memory of CLP Annex I Table 3.4.6; the same figures in Annex II 2.10");
    label.worked.push_back(std::move(worked));
}

void add_limits(const Contents& contents, const Classification& classified, Label& label) {
    LabelWorking worked{"What less scent takes away", {}};
    worked.lines = less_scent(
        codes_of(classified), classified.unknown > 0, contents.scent, contents.rest,
        [](double of_total) { return percent_cut(of_total, decimals) + " of the total"; });
    if (!worked.lines.empty()) label.worked.push_back(std::move(worked));
}

void add_working(const Contents& contents, const Classification& classified, Label& label) {
    add_mixture(contents, label);
    for (const Worked& test : classified.worked)
        label.worked.push_back({std::string(abbreviation(test.gives)), lines_of(test)});
    add_sensitisers(contents, classified, label);
    add_limits(contents, classified, label);
}

} // namespace

void add_hazards(const Model& model, const Reckoning& r, Label& label) {
    if (!has_clp(label.market)) {
        label.hazards.source = HazardSource::other_law;
        return;
    }
    const auto contents = contents_of(model, r);
    if (!contents) {
        label.hazards.instead = "not worked out: the load isn't known";
        return;
    }
    const Classification classified = classify(contents->candle);
    const SupplierUse use = supplier_use(model, r, *contents);
    if (use == SupplierUse::usable) {
        put_supplier(model, r.in.oils()[0].block, *contents, classified, label);
    } else if (classified.unknown > 0 || !contents->typical.empty()) {
        put_not_worked_out(model, r, *contents, classified, label);
    } else {
        put_worked_out(*contents, classified, label);
    }
    if (const std::string_view why = why_not(use); !why.empty())
        label.notes.push_back(fmt::format("No supplier's label is used: {}.", why));
    for (const BlockId oil : contents->typical)
        label.notes.push_back(fmt::format("What {} contains is the standard library's, typical of "
                                          "its kind and of no lot, and no label is made of that: "
                                          "copy the sheet of yours.",
                                          model.name(oil)));
    label.notes.emplace_back("The wax is taken as known and without a class (common practice); its "
                             "own sheet goes before that.");
    add_working(*contents, classified, label);
}

} // namespace waxwright
