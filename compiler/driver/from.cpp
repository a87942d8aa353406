#include "driver/from.hpp"

#include <algorithm>
#include <numeric>

#include <fmt/format.h>

#include "driver/files.hpp"
#include "plan/from.hpp"

namespace waxwright {

namespace {

constexpr std::string_view call_name = "--from";

/// A path as the language quotes it.
std::string quoted_path(std::string_view path) {
    std::string text = "\"";
    for (const char c : path) {
        if (c == '"' || c == '\\') text += '\\';
        text += c;
    }
    return text + "\"";
}

bool of_stock(const Options& options) {
    return options.from == "stock";
}

/// Takes the call's own lines out of the model again: they are no stock for anybody else.
std::vector<Have> taken_out(Model& model) {
    std::vector<Have> asked;
    for (Block& block : model.blocks) {
        if (model.sources[block.file].name() != call_name) continue;
        const auto first = model.haves.begin() + block.haves.first;
        asked.assign(first, first + block.haves.count);
        model.haves.erase(first, first + block.haves.count);
        block.haves = {};
    }
    return asked;
}

std::string listed(const Model& model, std::span<const Need> needs, const Supplies& supplies) {
    std::string text;
    for (const Need& need : needs) {
        const auto supply =
            std::find_if(supplies.all.begin(), supplies.all.end(),
                         [&](const AtHand& each) { return each.thing == need.thing; });
        text += text.empty() ? "" : "; ";
        if (supply == supplies.all.end()) {
            text += fmt::format("there is no `{}`", model.name(need.thing));
        } else {
            text += fmt::format("it takes {1} of `{0}`, and there is {2}", model.name(need.thing),
                                amount_words(model, *supply, need.amount),
                                amount_words(model, *supply, supply->amount));
        }
    }
    return text;
}

/// Something the call names that the recipe doesn't take, or that can't be weighed.
std::string not_of_recipe(const Model& model, BlockId target, std::span<const Need> needs,
                          const Supplies& supplies) {
    for (const BlockId thing : supplies.without_density) {
        return fmt::format("`{}` has no density to turn a volume into weight", model.name(thing));
    }
    for (const AtHand& supply : supplies.all) {
        const bool taken = std::any_of(needs.begin(), needs.end(), [&](const Need& need) {
            return need.thing == supply.thing;
        });
        if (!taken) {
            return fmt::format("`{}` takes no `{}`", model.name(target), model.name(supply.thing));
        }
    }
    return {};
}

/// What one of it takes: a vessel of a recipe, or a batch as it says. Nothing where that can't be
/// worked out.
std::optional<std::vector<Need>> needs_of_one(const Model& model, BlockId target) {
    if (model.blocks[target].kind != BlockKind::batch) {
        const Reckoning one = reckon(gather(model, job_of_recipe(model, target, 1)));
        return one.complete ? std::optional(needs_of(model, one)) : std::nullopt;
    }
    std::vector<Reckoning> lines;
    for (const Job& job : jobs_of_batch(model, target)) {
        lines.push_back(reckon(gather(model, job)));
        if (!lines.back().complete) return std::nullopt;
    }
    if (lines.empty()) return std::nullopt;
    return needs_of_batch(model, target, lines);
}

/// The batch's vessels in each set of its own proportions.
std::int64_t set_of(const Model& model, BlockId batch) {
    std::int64_t set = 0;
    for (const Count& pour : model.pours_of(batch))
        set = std::gcd(set, pour.count);
    return std::max<std::int64_t>(set, 1);
}

/// "one `tide-line`", or "2 `tide-line` and 1 `ebb`": the least that could be made.
std::string least_words(const Model& model, BlockId target) {
    if (model.blocks[target].kind != BlockKind::batch) {
        return fmt::format("one `{}`", model.name(target));
    }
    const std::int64_t set = set_of(model, target);
    std::string words;
    for (const Count& pour : model.pours_of(target)) {
        words += fmt::format("{}{} `{}`", words.empty() ? "" : " and ", pour.count / set,
                             model.name(pour.block));
    }
    return words;
}

} // namespace

void make_sets(Model& model, BlockId batch, std::int64_t sets) {
    const auto pours = model.pours_of(batch);
    std::vector<Count> scaled(pours.begin(), pours.end());
    const std::int64_t set = set_of(model, batch);
    for (Count& pour : scaled)
        pour.count = pour.count / set * sets;
    // Its own place: a batch that is like this one keeps what it says.
    model.blocks[batch].pours = {static_cast<std::uint32_t>(model.counts.size()),
                                 static_cast<std::uint32_t>(scaled.size())};
    model.counts.insert(model.counts.end(), scaled.begin(), scaled.end());
}

bool add_call(Sources& sources, const Options& options) {
    if (options.from.empty() || of_stock(options)) return true;
    const bool one_line = std::none_of(options.from.begin(), options.from.end(), [](char c) {
        return static_cast<unsigned char>(c) < ' ' || c == '{' || c == '}' || c == '#' || c == '"';
    });
    if (!one_line) {
        write_error("waxwright: --from takes amounts and names: \"10 lb soy + 300 g lavender\"\n");
        return false;
    }
    sources.add(std::string(call_name),
                fmt::format("stock what-the-call-has {{\nhave {}\n}}\nuse {}\n", options.from,
                            quoted_path(options.file)));
    return true;
}

bool call_is_wrong(const Workshop& workshop) {
    const Sources& sources = workshop.model.sources;
    const Findings::List& all = workshop.findings.all();
    return std::any_of(all.begin(), all.end(), [&](const Finding& finding) {
        return finding.severity == Severity::error && sources[finding.at.file].name() == call_name;
    });
}

std::optional<FromCall> count_from(Workshop& workshop, BlockId target, const Options& options) {
    Model& model = workshop.model;
    const std::vector<Have> asked = taken_out(model);
    if (workshop.findings.has_errors()) return std::nullopt;
    const auto needs = needs_of_one(model, target);
    if (!needs) return std::nullopt; // and why is told by a rule
    FromCall call;
    const auto refuse = [&call](int status, std::string problem) {
        call.status = status;
        call.problem = std::move(problem);
        return call;
    };
    if (of_stock(options) && model.haves.empty()) {
        return refuse(2, fmt::format("{}: has no `stock` to make it from", options.file));
    }
    const std::span<const Have> haves =
        of_stock(options) ? std::span<const Have>(model.haves) : std::span<const Have>(asked);
    call.supplies = add_up(model, haves, of_stock(options));
    if (!of_stock(options)) {
        std::string problem = not_of_recipe(model, target, *needs, call.supplies);
        if (!problem.empty()) return refuse(2, "--from: " + problem);
    }
    const bool batch = model.blocks[target].kind == BlockKind::batch;
    call.enough = batch ? enough_for_batch(model, target, call.supplies)
                        : enough_for(model, target, call.supplies);
    const std::string_view name = model.name(target);
    if (call.enough.unlimited) {
        return refuse(2,
                      fmt::format("--from: the stock says nothing of what `{}` is made of", name));
    }
    if (call.enough.too_many_tries) {
        return refuse(1,
                      fmt::format("--from: the largest count of `{}` could not be found: too "
                                  "little of what limits it goes into each vessel; say how many {}",
                                  name, batch ? "in the batch itself" : "with --make"));
    }
    if (call.enough.count == 0) {
        return refuse(1, fmt::format("not enough for {}: {}; nothing is written",
                                     least_words(model, target),
                                     listed(model, call.enough.short_at_next, call.supplies)));
    }
    return call;
}

} // namespace waxwright
