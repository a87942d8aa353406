#include "check/label.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "check/label_figures.hpp"
#include "check/report.hpp"
#include "reckon/compare.hpp"
#include "reckon/label/classify.hpp"
#include "reckon/label/contents.hpp"
#include "reckon/label/less_scent.hpp"
#include "reckon/label/maker.hpp"
#include "reckon/label/net_quantity.hpp"
#include "reckon/label/supplier_texts.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// "a, b and c"
std::string listed(const std::vector<std::string>& words, std::string_view last = " and ") {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? last : ", ";
        text += words[i];
    }
    return text;
}

// The label claims no more than is in it.

/// What it may claim, in the unit of the claim: whole grams, or tenths of an ounce.
std::string most_to_claim(double poured, UnitId unit_id) {
    const UnitId id = plain(unit_id);
    const bool ounces = id != no_unit && (unit(id).symbol == "oz" || unit(id).symbol == "lb");
    if (!ounces) return show_number(cut_down(poured, 0), 0) + " g";
    return show_number(cut_down(from_inside(poured, find_unit("oz")), 1), 1) + " oz";
}

void check_net(const Model& model, const Reckoning& r, Findings& findings) {
    const Job& job = r.in.job;
    const auto* net = model.get<Figure>(job.recipe, Key::net);
    if (net == nullptr || !r.mass_g) return;
    const bool doubtful = r.bounds.mass_g.has_value();
    const double poured = doubtful ? r.bounds.mass_g->low : *r.mass_g;
    if (!over(net->value(), poured)) return;
    const std::string most =
        show_in(poured, net->quantity.unit, dimension::mass); // as the claim is written
    report(
        findings, job, Rule::net_over_fill, net->at,
        fmt::format("the label claims {}, and one holds {}{}", show(net->quantity), most,
                    doubtful ? " at the low end of its doubts" : ""),
        fmt::format("claim {} at most, or fill more into each; the wax and what is in it counts, "
                    "not the vessel, the wick or a lid",
                    most_to_claim(poured, net->quantity.unit)));
}

// Who makes it.

std::vector<std::string> names_of(std::span<const Market> markets) {
    std::vector<std::string> names;
    for (const Market market : markets)
        names.emplace_back(name(market));
    return names;
}

void report_no_maker(const Model& model, const Job& job, std::span<const Market> markets,
                     Findings& findings) {
    report(findings, job, Rule::maker_missing, model.blocks[job.recipe].name_at,
           fmt::format("nothing says who makes `{}`, and a label for {} does",
                       model.name(job.recipe), listed(names_of(markets))),
           "write a block `maker my-studio { title: \"…\", address: \"…\", phone: \"…\", sells-in: "
           "… }`; till then the label has blanks");
}

void check_maker(const Model& model, const Job& job, std::span<const Market> markets,
                 Findings& findings) {
    const BlockId maker = model.maker_of(job.recipe);
    if (maker == no_block) return report_no_maker(model, job, markets, findings);
    std::vector<std::string> lacks;
    std::vector<Market> asking;
    for (const Market market : markets) {
        for (const Key key : maker_needs(market)) {
            if (model.entry(maker, key) != nullptr || model.unreadable(maker, key)) continue;
            const std::string lack = quoted(word(key));
            if (std::ranges::count(lacks, lack) == 0) lacks.push_back(lack);
            if (std::ranges::count(asking, market) == 0) asking.push_back(market);
        }
    }
    if (lacks.empty()) return;
    report(findings, job, Rule::maker_missing, model.blocks[maker].name_at,
           fmt::format("`{}` has no {}, which a label for {} says", model.name(maker),
                       listed(lacks, " and no "), listed(names_of(asking))),
           "write it into the block; till then the label has a blank");
}

// What the candle is classed as.

constexpr int decimals = 2; // of a percent

/// "6 % of the wax", cut down, on the basis on which the recipe writes its load.
std::string load_words(const Model& model, const Reckoning& r, double of_total) {
    const auto* load = model.get<Load>(r.in.job.recipe, Key::load);
    if (load == nullptr || load->basis != Basis::wax || !r.additives || of_total >= 1)
        return percent_cut(of_total, decimals) + " of the total";
    return percent_cut(of_total * (1 + *r.additives) / (1 - of_total), decimals) + " of the wax";
}

/// The substances that a reached test counted for a class: "linalool, limonene".
std::string names_behind(const Classification& classified, HazardClass hazard) {
    constexpr std::size_t most = 4;
    std::vector<std::string> names;
    for (const Worked& test : classified.worked) {
        if (test.outcome != TestOutcome::reached || test.gives != hazard) continue;
        for (const WorkedTerm& term : test.terms)
            if (term.counts && std::ranges::count(names, term.name) == 0)
                names.push_back(term.name);
    }
    const std::size_t more = names.size() > most ? names.size() - most : 0;
    names.resize(std::min(names.size(), most));
    return fmt::format("{}{}", fmt::join(names, ", "),
                       more > 0 ? fmt::format(" and {} more", more) : "");
}

void report_class(const Classification& classified, const Job& job,
                  const std::vector<std::string>& loads, Span at, Findings& findings) {
    std::vector<std::string> classes;
    for (const HazardClass hazard : classified.classes) {
        const std::string_view sentence = code(facts(hazard).statement);
        std::string_view name = abbreviation(hazard); // "STOT SE 3 (H335)" has it already
        if (const std::string end = fmt::format(" ({})", sentence); name.ends_with(end))
            name.remove_suffix(end.size());
        classes.push_back(
            fmt::format("{} ({}: {})", name, sentence, names_behind(classified, hazard)));
    }
    report(findings, job, Rule::hazard_class, at,
           fmt::format("by what it contains the candle is {}", listed(classes)),
           fmt::format("{}{}the supplier's sheet for your own lot goes first",
                       fmt::join(loads, "; "), loads.empty() ? "" : "; "));
}

void report_sensitisers(const Classification& classified, const Job& job,
                        const std::vector<std::string>& loads, Span at, Findings& findings) {
    report(findings, job, Rule::sensitiser_named, at,
           fmt::format("the label names {}, which may set off somebody who is allergic to it",
                       listed(classified.sensitisers)),
           loads.empty() ? "the sentence is EUH208" : "the sentence is EUH208; " + loads.front());
}

/// What to do about what nobody says.
std::string unsaid_hint(bool oil, SupplierUse use) {
    std::string hint =
        "copy section 3 of its safety data sheet into `contains`, with a `substance` of "
        "`hazards: none`\nfor what the sheet gives no class";
    if (!why_not(use).empty())
        hint += fmt::format("; {}", why_not(use));
    else if (oil)
        hint += "; or ask its supplier for the label of a candle, and write it as\n"
                "`supplier-label` with its `supplier-label-load`";
    return hint;
}

void report_unsaid(const Model& model, const Job& job, const UnsaidPart& part, SupplierUse use,
                   NoteHints hints, Findings& findings) {
    const std::string name = quoted(model.name(part.material));
    const bool oil = model.blocks[part.material].kind == BlockKind::oil;
    std::string message = "nobody says what ";
    message += at_least(part.of_it, 1) ? name + " contains"
                                       : fmt::format("{} of {} is", show_percent(part.of_it), name);
    message += ": it counts as unknown, and no label is worked out";
    report(findings, job, Rule::contents_unknown, model.place_to_change(part.material, part.at),
           std::move(message), hints == NoteHints::wanted ? unsaid_hint(oil, use) : std::string());
}

/// What the supplier's label lacks, and the oil's own contents give: told as a warning.
void report_not_said(const Model& model, const Job& job, BlockId oil,
                     const Classification& classified, const SupplierTexts& said,
                     Findings& findings) {
    const auto lacks = not_said(classified, said);
    if (lacks.empty()) return;
    const Span at =
        model.place_to_change(oil, Key::supplier_label, model.blocks[job.recipe].name_at);
    report_warning(findings, job, Rule::hazard_class, at,
                   fmt::format("the supplier's label of {} lacks {}, which a candle has by what "
                               "the oil contains",
                               quoted(model.name(oil)), fmt::join(lacks, ", ")),
                   "ask the supplier which of the two is right, and mend `supplier-label` or "
                   "`contains`;\ntill then ASK THE SUPPLIER stands across the label");
}

void check_supplier(const Model& model, const Reckoning& r, const Contents& contents,
                    const Classification& classified, SupplierUse use, Findings& findings) {
    const Job& job = r.in.job;
    for (const MatterInput& oil : r.in.oils()) {
        const auto texts = model.text_list(oil.block, Key::supplier_label);
        if (texts.empty()) continue;
        const SupplierTexts said = read_supplier(texts);
        const Span at = model.place_to_change(oil.block, Key::supplier_label, oil.at);
        if (!said.faults.empty())
            report_warning(findings, job, Rule::out_of_range, at,
                           fmt::format("in the supplier's label of {} {}",
                                       quoted(model.name(oil.block)), listed(said.faults)),
                           "copy its texts once more, each sentence by itself; such a text is left "
                           "out");
        // What is typical of a kind of oil says nothing against its supplier.
        if (use == SupplierUse::usable && contents.typical.empty())
            report_not_said(model, job, oil.block, classified, said, findings);
    }
}

void report_which_stot(const Classification& classified, const Contents& contents, const Job& job,
                       Span at, Findings& findings) {
    const auto names = without_sentence(contents.candle, classified);
    if (names.empty()) return;
    report_warning(
        findings, job, Rule::hazard_class, at,
        fmt::format("the candle is STOT SE 3 by {}, and nobody says whether that is H335 "
                    "or H336",
                    listed(names)),
        "write in its `hazards` what its sheet has: stot-se-3-h335 if it irritates, "
        "stot-se-3-h336 if it makes drowsy;\ntill then ASK THE SUPPLIER stands across "
        "the label");
}

void check_hazards(const Model& model, const Reckoning& r, NoteHints hints, Findings& findings) {
    auto contents = contents_of(model, r);
    if (!contents) return;
    const SupplierUse use = supplier_use(model, r, *contents);
    if (use != SupplierUse::usable) {
        for (const UnsaidPart& part : contents->unsaid)
            report_unsaid(model, r.in.job, part, use, hints, findings);
    }
    // Of much that is sold nothing but the wax is known: there is nothing to work out then.
    const bool any = std::ranges::any_of(
        contents->candle, [](const Ingredient& one) { return !one.classes.empty(); });
    const Classification classified = any ? classify(contents->candle) : Classification();
    check_supplier(model, r, *contents, classified, use, findings);
    for (const MatterInput& oil : r.in.oils())
        check_idle_figures(model, r.in.job, oil, findings);
    for (const MatterInput& additive : r.in.additives())
        check_idle_figures(model, r.in.job, additive, findings);
    if (classified.classes.empty() && classified.sensitisers.empty()) return;
    // The loads at which something goes are most of the work, and stand in hints alone.
    const bool wanted = hints == NoteHints::wanted;
    if (wanted) contents->scent = merged(contents->scent); // once for all that is asked of it
    const auto loads = [&](std::vector<std::string> codes) {
        if (!wanted) return std::vector<std::string>();
        return less_scent(std::move(codes), classified.unknown > 0, contents->scent, contents->rest,
                          [&](double of_total) { return load_words(model, r, of_total); });
    };
    const Entry* scent = model.entry(r.in.job.recipe, Key::scent);
    if (scent == nullptr) scent = model.entry(r.in.job.recipe, Key::leftovers);
    const Span at = scent != nullptr ? scent->at : model.blocks[r.in.job.recipe].name_at;
    std::vector<std::string> codes = codes_of(classified);
    if (!classified.sensitisers.empty()) {
        codes.pop_back();
        report_sensitisers(classified, r.in.job, loads({"EUH208"}), at, findings);
    }
    if (use != SupplierUse::usable)
        report_which_stot(classified, *contents, r.in.job, at, findings);
    if (!classified.classes.empty()) report_class(classified, r.in.job, loads(codes), at, findings);
}

} // namespace

void check_label(const Model& model, const Reckoning& reckoning, NoteHints hints,
                 Findings& findings) {
    const Job& job = reckoning.in.job;
    if (job.batch != no_block) return;
    check_net(model, reckoning, findings);
    const std::vector<Market> markets = model.markets_of(job.recipe);
    if (markets.empty()) return;
    check_maker(model, job, markets, findings);
    if (std::ranges::any_of(markets, has_clp)) check_hazards(model, reckoning, hints, findings);
}

} // namespace waxwright
