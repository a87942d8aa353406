#include <array>
#include <utility>

#include <unistd.h>

#include <fmt/format.h>

#include "compare/compare.hpp"
#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/outputs.hpp"
#include "driver/parallel.hpp"
#include "driver/target.hpp"
#include "emit/comparison.hpp"
#include "emit/findings_text.hpp"
#include "pipeline/pipeline.hpp"

namespace waxwright {

namespace {

constexpr std::string_view no_file = "/dev/null";

/// A version that is compared.
struct Side {
    std::string file;   // what is read
    std::string name;   // what it is called, and where the files it uses are seen from
    std::string beside; // where they are besides; may be empty
    std::string text;
};

/// The sources of a side that was worked, and what there is to compare of it.
struct WorkedSide {
    Sources sources;
    Version version;
};

/// Where the other version really stands; nothing where it stands nowhere.
std::string folder_beside(const Options& options, const std::string& other) {
    if (!options.beside.empty()) return options.beside;
    return other == "-" || other == no_file ? std::string() : folder_of(other);
}

/// git names the file in its tree first, then the old and the new version, which may be temporary
/// files; behind them the new name of a file that was renamed.
std::array<Side, 2> sides_of(const Options& options) {
    if (options.git.empty()) {
        return {Side{options.before, options.before, folder_beside(options, options.after), {}},
                Side{options.after, options.after, folder_beside(options, options.before), {}}};
    }
    const std::vector<std::string>& words = options.git;
    const std::string& name_after = words.size() == 9 ? words[7] : words[0];
    return {Side{words[1], words[0], options.beside, {}},
            Side{words[4], name_after, options.beside, {}}};
}

bool read_side(Side& side) {
    FileText file = read_file(side.file);
    if (!file.text) {
        write_error(fmt::format("waxwright: {}: {}\n", side.name, file.problem));
        return false;
    }
    side.text = std::move(*file.text);
    return true;
}

bool us_units_of(const Plan& plan, const Options& options) {
    return options.units == "us" || (plan.us_units && options.units != "metric");
}

/// The sheets of the file's own recipes and batches, in the order in which they are written.
std::vector<SheetFacts> own_sheets(const Workshop& workshop, const Options& options) {
    const Model& model = workshop.model;
    std::vector<SheetFacts> sheets;
    const auto is_own = [&](BlockId id) { return model.blocks[id].file == model.roots[0]; };
    for (const Task& recipe : workshop.recipes) {
        if (!is_own(recipe.job.recipe)) continue;
        const Plan plan = plan_of(workshop, recipe);
        sheets.push_back(facts_of(plan, us_units_of(plan, options)));
    }
    for (const BatchTasks& batch : workshop.batches) {
        if (!is_own(batch.batch)) continue;
        const Plan plan = plan_of(workshop, batch.batch);
        sheets.push_back(facts_of(plan, us_units_of(plan, options)));
    }
    return sheets;
}

WorkedSide worked(const Side& side, const Options& options) {
    Sources sources;
    sources.add(side.name, side.text);
    Options of_side = options;
    of_side.file = side.name;
    of_side.beside = side.beside;
    Workshop workshop = open_workshop(std::move(sources), read_from_disk(of_side));
    workshop.model.ounces = options.units == "us";
    work(workshop, on_all_cores);
    Version version;
    version.name = side.file == no_file ? side.file : side.name;
    version.has_errors = workshop.findings.has_errors();
    version.found = found_words(workshop.findings, workshop.model);
    if (!version.has_errors) {
        version.sheets = own_sheets(workshop, options);
    } else if (options.git.empty()) { // git shows what is written, and nothing beside it
        const ReportStyle style{.notes = false, .colour = may_colour(STDERR_FILENO)};
        write_error(
            findings_text(workshop.findings, workshop.model.sources, style, &workshop.model));
        write_error(counts_line(workshop.findings, 1) + "; there is no sheet to compare\n");
    }
    return {std::move(workshop.model.sources), std::move(version)};
}

/// Of a file in which there is nothing to tell, git would print nothing at all.
std::string for_git(const Comparison& comparison, std::string text, const std::string& name) {
    if (text.empty()) {
        text = fmt::format("{}: {}\n", name,
                           comparison.no_sheets
                               ? "has no recipe and no batch: compare a file that uses it, or see "
                                 "its lines with `git diff --no-ext-diff`"
                               : "nothing is different at the bench");
    }
    return text + "\n"; // the next file's comes right behind it
}

} // namespace

int run_compare(const Options& options) {
    if (options.git.size() == 1) {
        return hand_out(options.out, fmt::format("{}: has two versions that are not merged yet\n",
                                                 options.git[0]));
    }
    std::array<Side, 2> sides = sides_of(options);
    if (!read_side(sides[0]) || !read_side(sides[1])) return 2;
    const WorkedSide before = worked(sides[0], options);
    const WorkedSide after = worked(sides[1], options);
    if (!options.out.empty()) {
        for (const WorkedSide* side : {&before, &after}) {
            const std::string why = output_clash({options.out}, side->sources);
            if (!why.empty()) return wrong_call(why);
        }
    }
    const Comparison comparison = compare(before.version, after.version);
    if (comparison.no_sheets && comparison.found.empty() && options.git.empty() &&
        sides[0].text != sides[1].text) {
        return wrong_call("neither version has a recipe or a batch, so what its changes do at the "
                          "bench can't be seen: compare a file that uses it");
    }
    std::string text =
        options.as == "json" ? comparison_json(comparison) : comparison_markdown(comparison);
    if (!options.git.empty()) text = for_git(comparison, std::move(text), sides[1].name);
    const int status = hand_out(options.out, text);
    if (status != 0 || !options.git.empty()) return status; // git takes any other for a failure
    return comparison.same() ? 0 : 1;
}

} // namespace waxwright
