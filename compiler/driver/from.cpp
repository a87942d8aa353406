#include "driver/from.hpp"

#include <algorithm>

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
            text += fmt::format("of `{}` it takes {}, and there is {}", model.name(need.thing),
                                amount_words(model, *supply, need.amount),
                                amount_words(model, *supply, supply->amount));
        }
    }
    return text;
}

/// Something the call names that the recipe doesn't take, or that can't be weighed.
std::string not_of_recipe(const Model& model, const Reckoning& one, const Supplies& supplies) {
    const std::vector<Need> needs = needs_of(model, one);
    for (const BlockId thing : supplies.without_density) {
        return fmt::format("`{}` has no density to turn a volume into weight", model.name(thing));
    }
    for (const AtHand& supply : supplies.all) {
        const bool taken = std::any_of(needs.begin(), needs.end(), [&](const Need& need) {
            return need.thing == supply.thing;
        });
        if (!taken) {
            return fmt::format("`{}` takes no `{}`", model.name(one.in.job.recipe),
                               model.name(supply.thing));
        }
    }
    return {};
}

} // namespace

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
    const std::vector<Finding>& all = workshop.findings.all();
    return std::any_of(all.begin(), all.end(), [&](const Finding& finding) {
        return finding.severity == Severity::error && sources[finding.at.file].name() == call_name;
    });
}

std::optional<FromCall> count_from(Workshop& workshop, BlockId recipe, const Options& options) {
    Model& model = workshop.model;
    const std::vector<Have> asked = taken_out(model);
    if (workshop.findings.has_errors()) return std::nullopt;
    const Reckoning one = reckon(gather(model, job_of_recipe(model, recipe, 1)));
    if (!one.complete) return std::nullopt; // and why is told by a rule
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
        std::string problem = not_of_recipe(model, one, call.supplies);
        if (!problem.empty()) return refuse(2, "--from: " + problem);
    }
    call.enough = enough_for(model, recipe, call.supplies);
    const std::string_view name = model.name(recipe);
    if (call.enough.unlimited) {
        return refuse(2,
                      fmt::format("--from: the stock says nothing of what `{}` is made of", name));
    }
    if (call.enough.too_many_tries) {
        return refuse(1, fmt::format("--from: the largest count of `{}` was not found: what limits "
                                     "it is too little of each vessel; say how many with --make",
                                     name));
    }
    if (call.enough.count == 0) {
        return refuse(1, fmt::format("not enough for one `{}`: {}; nothing is written", name,
                                     listed(model, call.enough.short_at_next, call.supplies)));
    }
    return call;
}

} // namespace waxwright
