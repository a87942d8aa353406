#include <cmath>

#include "emit/comparison.hpp"
#include "emit/markdown_parts.hpp"
#include "plan/wording.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr std::string_view no_file = "/dev/null";

/// Writes with the units of one sheet. What it writes goes to no plan: it needs one only for that.
class ComparisonWriter {
public:
    explicit ComparisonWriter(bool us_units) : sheet_(none_, us_units) {}

    void write(const SheetChange& change);
    std::string take() { return sheet_.take(); }

private:
    void write_names(std::string_view name_before, std::string_view name,
                     std::string_view title_before, std::string_view title);
    void write_facts(const std::vector<FactChange>& changes, Fate fate);
    void write_fact(const FactChange& change, Fate fate);
    void write_from_to(const FactChange& change);
    void write_difference(const SheetValue& before, const SheetValue& after);
    void write_part(const PartChange& part);
    void write_steps(const std::vector<StepChange>& steps);
    void write_step(const StepChange& change);
    void write_step_name(const StepPlan& step);
    void say(const SheetValue& value) { sheet_.user(shown(value, sheet_.us_units)); }

    Plan none_;
    SheetWriter sheet_;
};

/// "7.5 g", "2 C° (3.6 F°)"; the kind of the values decides.
std::string amount(const SheetValue& of, double much, bool us_units) {
    if (of.kind == ValueKind::temperature) {
        const Plan none;
        SheetWriter scratch(none, us_units);
        return scratch.interval(much).take();
    }
    SheetValue value = of;
    value.number = much;
    value.text.clear();
    return shown(value, us_units);
}

std::string_view direction(ValueKind kind, bool up) {
    switch (kind) {
    case ValueKind::temperature:
        return up ? " hotter" : " cooler";
    case ValueKind::minutes:
        return up ? " longer" : " shorter";
    case ValueKind::count:
        return up ? " more" : " fewer";
    default:
        return up ? " more" : " less";
    }
}

void ComparisonWriter::write_difference(const SheetValue& before, const SheetValue& after) {
    const auto more = difference(before, after);
    if (!more || *more == 0) return;
    const bool finer = std::abs(before.division_g - after.division_g) > 1e-12;
    if (finer) return; // two scales' roundings would be in it
    sheet_.say(", ").user(amount(after, std::abs(*more), sheet_.us_units));
    sheet_.say(direction(after.kind, *more > 0));
}

void ComparisonWriter::write_from_to(const FactChange& change) {
    if (change.before) {
        say(*change.before);
    } else {
        sheet_.say("none");
    }
    sheet_.say(" → ");
    if (change.after) {
        say(*change.after);
    } else {
        sheet_.say("none");
    }
    if (change.before && change.after) write_difference(*change.before, *change.after);
}

void ComparisonWriter::write_fact(const FactChange& change, Fate fate) {
    const std::string_view words = info(change.aspect).words;
    sheet_.say("- ").say(words);
    if (!change.of.empty()) sheet_.say(" ").user(change.of);
    if (!change.filling.empty()) sheet_.say(" for ").user(change.filling);
    sheet_.say(": ");
    if (fate == Fate::added || fate == Fate::gone) {
        say(change.after ? *change.after : *change.before);
    } else {
        write_from_to(change);
    }
    sheet_.say("\n");
}

void ComparisonWriter::write_facts(const std::vector<FactChange>& changes, Fate fate) {
    for (const FactChange& change : changes)
        write_fact(change, fate);
}

/// "Add scent", as the language calls it.
void ComparisonWriter::write_step_name(const StepPlan& step) {
    sheet_.say(info(step.verb).words);
    if (!step.of.empty()) sheet_.say(" ").user(step.of);
}

void ComparisonWriter::write_step(const StepChange& change) {
    sheet_.say("- ");
    if (change.fate == Fate::added || change.fate == Fate::gone) {
        const bool is_new = change.fate == Fate::added;
        sheet_.say(is_new ? "New step " : "Gone, step ");
        sheet_.number(static_cast<std::int64_t>(is_new ? change.place_after : change.place_before));
        sheet_.say(": ");
        write_sentence(sheet_, change.step);
        sheet_.say("\n");
        return;
    }
    sheet_.say("Step ").number(static_cast<std::int64_t>(change.place_after)).say(", ");
    write_step_name(change.step);
    sheet_.say(": ");
    if (change.fate == Fate::moved) {
        sheet_.say("it was step ").number(static_cast<std::int64_t>(change.place_before));
    }
    for (std::size_t i = 0; i < change.figures.size(); ++i) {
        if (i > 0 || change.fate == Fate::moved) sheet_.say("; ");
        const FactChange& figure = change.figures[i];
        if (figure.aspect != Aspect::temperature) sheet_.say(info(figure.aspect).words).say(" ");
        write_from_to(figure);
    }
    sheet_.say("\n");
}

void ComparisonWriter::write_steps(const std::vector<StepChange>& steps) {
    for (const StepChange& change : steps)
        write_step(change);
}

void ComparisonWriter::write_part(const PartChange& part) {
    write_facts(part.facts, part.fate);
    write_steps(part.steps);
}

void ComparisonWriter::write_names(std::string_view name_before, std::string_view name,
                                   std::string_view title_before, std::string_view title) {
    if (name_before.empty()) return;
    sheet_.say("- Name: ").user(name_before).say(" → ").user(name).say("\n");
    if (title_before.empty()) return;
    sheet_.say("- Title: ").user(title_before).say(" → ").user(title).say("\n");
}

std::string_view fate_words(Fate fate) {
    if (fate == Fate::added) return ": new";
    if (fate == Fate::gone) return ": gone";
    if (fate == Fate::renamed) return ": renamed";
    return "";
}

void ComparisonWriter::write(const SheetChange& change) {
    sheet_.say("\n## ").say(change.is_batch ? "Batch " : "").user(change.title);
    sheet_.say(fate_words(change.fate)).say("\n");
    const bool listed = !change.is_batch || !change.name_before.empty() || !change.facts.empty();
    if (listed) sheet_.say("\n");
    write_names(change.name_before, change.name, change.title_before, change.title);
    if (!change.is_batch) {
        if (!change.parts.empty()) write_part(change.parts.front());
        return;
    }
    write_facts(change.facts, change.fate);
    for (const PartChange& part : change.parts) {
        sheet_.begin_heading();
        sheet_.user(part.title);
        sheet_.say(change.fate == part.fate ? "" : fate_words(part.fate)).end_heading();
        write_names(part.name_before, part.name, part.title_before, part.title);
        write_part(part);
    }
}

/// "# From old.candle to new.candle"
void write_title(SheetWriter& sheet, const Comparison& comparison) {
    const std::string& before = comparison.name_before;
    const std::string& after = comparison.name_after;
    sheet.say("# ");
    if (before == after) {
        sheet.user(after);
    } else if (before == no_file) {
        sheet.user(after).say(": a new file");
    } else if (after == no_file) {
        sheet.user(before).say(": the file is gone");
    } else {
        sheet.say("From ").user(before).say(" to ").user(after);
    }
    sheet.say("\n");
}

void write_errors(SheetWriter& sheet, const Comparison& comparison) {
    if (!comparison.errors_before && !comparison.errors_after) return;
    const bool both = comparison.errors_before && comparison.errors_after;
    sheet.say("\n").say(both                       ? "Both versions have errors"
                        : comparison.errors_before ? "The old version has errors"
                                                   : "The new version has errors");
    sheet.say(
        ": there are no two sheets to compare, and what can't be checked for that is not found "
        "either.\n");
}

/// "the flame … (allowed because …)"
void write_found_words(SheetWriter& sheet, const FoundWords& words) {
    sheet.message(words.message);
    if (words.because) sheet.say(" (allowed because ").message(*words.because).say(")");
}

/// "- New warning: …", "- Changed note: … → …", "- Changed note: … → warning: …"
void write_found_change(SheetWriter& sheet, const FoundChange& change) {
    const FoundWords& first = change.before ? *change.before : *change.after;
    const bool both = change.before && change.after;
    sheet.say(both ? "- Changed " : change.after ? "- New " : "- Gone: ");
    sheet.say(word(first.severity)).say(": ");
    write_found_words(sheet, first);
    if (!both) return;
    sheet.say(" → ");
    if (change.after->severity != first.severity) {
        sheet.say(word(change.after->severity)).say(": ");
    }
    write_found_words(sheet, *change.after);
}

void write_whom(SheetWriter& sheet, const std::vector<std::string>& whom) {
    constexpr std::size_t most_names = 6;
    if (whom.empty()) return;
    sheet.say(" (");
    for (std::size_t i = 0; i < std::min(whom.size(), most_names); ++i)
        sheet.say(i == 0 ? "" : ", ").user(whom[i]);
    if (whom.size() > most_names) {
        sheet.say(" and ").number(static_cast<std::int64_t>(whom.size() - most_names)).say(" more");
    }
    sheet.say(")");
}

void write_found(SheetWriter& sheet, const Comparison& comparison) {
    if (comparison.found.empty()) return;
    sheet.heading("What the check finds");
    for (const FoundChange& change : comparison.found) {
        write_found_change(sheet, change);
        write_whom(sheet, change.whom);
        sheet.say("\n");
    }
}

} // namespace

std::string comparison_markdown(const Comparison& comparison) {
    if (comparison.same()) return {};
    const Plan none;
    SheetWriter sheet(none, false);
    write_title(sheet, comparison);
    write_errors(sheet, comparison);
    for (const SheetChange& change : comparison.sheets) {
        ComparisonWriter writer(change.us_units);
        writer.write(change);
        sheet.say(writer.take());
    }
    write_found(sheet, comparison);
    return sheet.take();
}

} // namespace waxwright
