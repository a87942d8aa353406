#include <algorithm>
#include <span>

#include <unistd.h>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/from.hpp"
#include "driver/outputs.hpp"
#include "driver/parallel.hpp"
#include "driver/target.hpp"
#include "emit/findings_text.hpp"
#include "emit/html.hpp"
#include "emit/label.hpp"
#include "emit/label_html.hpp"
#include "emit/markdown.hpp"
#include "emit/svg.hpp"
#include "emit/toml.hpp"
#include "pipeline/pipeline.hpp"
#include "plan/from.hpp"

namespace waxwright {

namespace {

bool wants_us_units(const Plan& plan, const Options& options) {
    return options.units == "us" || (plan.us_units && options.units != "metric");
}

/// Of a page of HTML it is what one sheet has of it; `hand_on` puts the page round it.
std::string rendered(const Workshop& workshop, BlockId target, const Plan& plan,
                     const Options& options) {
    if (options.as == "toml") return toml_sheet(plan);
    const SheetStyle style{.us_units = options.units == "us",
                           .metric_units = options.units == "metric",
                           .with_cost = options.with_cost,
                           .with_buy = options.with_buy};
    const std::vector<Label> labels =
        options.with_label ? labels_of(workshop, target) : std::vector<Label>();
    if (options.as != "html") {
        const std::string part = labels.empty() ? std::string() : markdown_label_part(labels);
        return markdown_sheet(plan, style) + part;
    }
    const std::string picture =
        options.with_picture
            ? svg_picture(plan, pictures_of(workshop, target), wants_us_units(plan, options))
            : std::string();
    return html_sheet(markdown_pieces(plan, style), picture,
                      labels.empty() ? std::string() : html_label_part(labels));
}

/// TOML always has it.
WithMoney money_of(const Options& options) {
    const bool wanted = options.as == "toml" || options.with_cost || options.with_buy;
    return wanted ? WithMoney::yes : WithMoney::no;
}

bool is_folder_target(const std::string& out) {
    return !out.empty() && out.back() == '/';
}

std::string path_in_folder(const Options& options, std::string_view name) {
    const bool named = options.as == "toml" || options.as == "html";
    const std::string_view ending = named ? std::string_view(options.as) : "md";
    return fmt::format("{}{}.{}", options.out, name, ending);
}

/// Every file that the call writes.
std::vector<std::string> files_to_write(const Workshop& workshop, BlockId target,
                                        const Options& options) {
    std::vector<std::string> files;
    const Model& model = workshop.model;
    if (!options.out.empty() && !is_folder_target(options.out)) files.push_back(options.out);
    if (!options.picture.empty()) files.push_back(options.picture);
    if (!is_folder_target(options.out)) return files;
    if (!options.all) {
        if (target != no_block) files.push_back(path_in_folder(options, model.name(target)));
        return files;
    }
    for (const Block& block : model.blocks) {
        const bool own = block.file == model.roots[0] && block.kind == BlockKind::recipe;
        if (own) files.push_back(path_in_folder(options, block.name));
    }
    return files;
}

/// What a page is called: the recipe's title, or the name.
std::string_view title_of(const Model& model, BlockId block) {
    const std::string_view title = model.blocks[block].kind == BlockKind::recipe
                                       ? model.text(block, Key::title)
                                       : std::string_view();
    return title.empty() ? model.name(block) : title;
}

/// Hands a sheet on: to its file in a folder, or to the text that is written in the end.
std::string hand_on(const Options& options, std::string_view name, std::string_view title,
                    bool first, std::string_view sheet, std::string& text) {
    const bool page = options.as == "html";
    if (is_folder_target(options.out)) {
        const std::string path = path_in_folder(options, name);
        const std::string whole =
            page ? html_begin(title) + std::string(sheet) + html_end() : std::string(sheet);
        const std::string problem = write_file(path, whole, Durable::no);
        return problem.empty() ? std::string() : path + ": " + problem;
    }
    if (page && first) text += html_begin(title);
    if (!page && !first) text += options.as == "toml" ? "\n" : "\n---\n\n";
    text += sheet;
    return {};
}

std::string flush(const Options& options, std::string& text) {
    if (is_folder_target(options.out) || text.empty()) return {};
    std::string problem = write_text(options.out, text);
    text.clear();
    return problem;
}

/// What comes behind the last sheet.
std::string finish(const Options& options, std::string& text) {
    if (is_folder_target(options.out)) {
        sync_folder(options.out);
        return {};
    }
    if (options.as == "html") text += html_end();
    return flush(options, text);
}

/// The recipes of the named file itself.
std::vector<const Task*> own_recipes(const Workshop& workshop) {
    std::vector<const Task*> own;
    for (const Task& recipe : workshop.recipes) {
        const Block& block = workshop.model.blocks[recipe.job.recipe];
        if (block.file == workshop.model.roots[0]) own.push_back(&recipe);
    }
    return own;
}

/// All recipes of the file, one after another: a round of them is made on every core, then written
/// in order, so that ten thousand sheets need the memory of a round.
std::string print_all(const Workshop& workshop, const Options& options) {
    constexpr std::size_t round = 512;
    constexpr std::size_t piece = 16;
    const std::vector<const Task*> recipes = own_recipes(workshop);
    const std::span<const Task* const> all(recipes);
    std::vector<std::string> sheets(std::min(round, all.size()));
    std::string text;
    std::string problem;
    for (std::size_t from = 0; from < all.size() && problem.empty(); from += round) {
        const auto now = all.subspan(from, std::min(round, all.size() - from));
        in_pieces(now.size(), piece, [&](std::size_t begin, std::size_t end) {
            for (std::size_t i = begin; i < end; ++i)
                sheets[i] = rendered(workshop, now[i]->job.recipe,
                                     plan_of(workshop, *now[i], money_of(options)), options);
        });
        for (std::size_t i = 0; i < now.size() && problem.empty(); ++i) {
            const BlockId recipe = now[i]->job.recipe;
            problem = hand_on(options, workshop.model.name(recipe),
                              title_of(workshop.model, recipe), from + i == 0, sheets[i], text);
        }
        if (problem.empty() && options.out.empty()) problem = flush(options, text);
    }
    return problem.empty() ? finish(options, text) : problem;
}

std::vector<Need> needs_of_made(const Workshop& workshop, BlockId target) {
    for (const BatchTasks& batch : workshop.batches) {
        if (batch.batch != target) continue;
        return needs_of_batch(workshop.model, target, reckonings_of(workshop, batch));
    }
    const auto made = std::find_if(workshop.recipes.begin(), workshop.recipes.end(),
                                   [&](const Task& each) { return each.job.recipe == target; });
    return needs_of(workshop.model, reckoning_of(workshop, *made));
}

/// The plan of what was asked for, with what its count was worked out from.
Plan one_plan(const Workshop& workshop, BlockId target, const Options& options,
              const std::optional<FromCall>& from) {
    Plan plan = plan_of(workshop, target, money_of(options));
    if (from) {
        plan.from =
            from_part(workshop.model, needs_of_made(workshop, target), from->supplies, from->enough,
                      options.from == "stock" ? std::string_view() : options.from);
    }
    return plan;
}

/// Writes the heat plan of what was asked for; the problem, or "".
std::string write_picture(const Workshop& workshop, BlockId target, const Plan& plan,
                          const Options& options) {
    const std::string problem =
        write_file(options.picture,
                   svg_picture(plan, pictures_of(workshop, target), wants_us_units(plan, options)));
    return problem.empty() ? problem : options.picture + ": " + problem;
}

/// A call that says how many in two ways, or of more than one recipe; empty where it is fine.
std::string_view clash(const Options& options) {
    if (options.all && !options.picture.empty()) {
        return "--picture draws one recipe or batch, and does not go with --all";
    }
    if (options.all && !options.name.empty()) return "--all takes no NAME";
    if (options.with_picture && options.as != "html") {
        return "--with picture is for --as html; else --picture FILE draws it";
    }
    if (options.with_label && options.as == "toml")
        return "--with label is not for --as toml; `label --as toml` has it";
    if (options.from.empty()) return {};
    if (options.make) return "--make and --from both say how many";
    if (options.all) return "--from is for one recipe or batch, and does not go with --all";
    return {};
}

/// The same of a batch.
std::string_view clash_of_batch(const Options& options) {
    if (options.make) return "--make is for a recipe; a batch says how many of each itself";
    return {};
}

} // namespace

int run_sheet(const Options& options) {
    if (!clash(options).empty()) return wrong_call(clash(options));
    Sources sources;
    if (!add_root(sources, options.file) || !add_call(sources, options)) return 2;
    Workshop workshop = open_workshop(std::move(sources), read_from_disk(options));
    const Sources& files = workshop.model.sources;
    workshop.model.ounces =
        options.units == "us"; // in the TOML too: the same call, the same weights
    BlockId target = no_block;
    bool wrong = false;
    std::optional<FromCall> from;
    if (!options.all) {
        target = chosen(workshop.model, options);
        wrong = target == no_block;
        if (!wrong && workshop.model.blocks[target].kind == BlockKind::batch) {
            const std::string_view why = clash_of_batch(options);
            wrong = !why.empty() && wrong_call(why) != 0;
        }
        if (!wrong && !options.from.empty()) from = count_from(workshop, target, options);
    }
    if (const std::string why = output_clash(files_to_write(workshop, target, options), files);
        !why.empty()) {
        return wrong_call(why);
    }
    if (options.with_label) want_labels(workshop.model, target, options);
    const bool counted = from && from->problem.empty();
    const bool batch = target != no_block && workshop.model.blocks[target].kind == BlockKind::batch;
    if (counted && batch) make_sets(workshop.model, target, from->enough.count);
    work(workshop, on_all_cores, target,
         counted && !batch ? from->enough.count : options.make.value_or(0));
    const ReportStyle style{.notes = false, .colour = may_colour(STDERR_FILENO)};
    write_error(findings_text(workshop.findings, files, style, &workshop.model));
    if (wrong) return 2;
    if (workshop.findings.has_errors()) {
        write_error(counts_line(workshop.findings, 1) + "; nothing is written\n");
        return call_is_wrong(workshop) ? 2 : 1;
    }
    if (from && !counted) {
        wrong_call(from->problem);
        return from->status;
    }
    std::string text;
    std::string problem;
    if (options.all && own_recipes(workshop).empty()) {
        return no_recipes(workshop.model, options);
    }
    if (options.all) {
        problem = print_all(workshop, options);
    } else {
        const Plan plan = one_plan(workshop, target, options, from);
        if (!options.picture.empty()) problem = write_picture(workshop, target, plan, options);
        if (!problem.empty()) return wrong_call(problem);
        problem = hand_on(options, workshop.model.name(target), title_of(workshop.model, target),
                          true, rendered(workshop, target, plan, options), text);
        if (problem.empty()) problem = finish(options, text);
    }
    return problem.empty() ? 0 : wrong_call(problem);
}

} // namespace waxwright
