// Lines of a file and of its blocks, before the value of a property begins.
#include <algorithm>

#include <fmt/format.h>

#include "editor/completion_parts.hpp"
#include "findings/registry.hpp"
#include "model/phrase_text.hpp"
#include "model/vessel_needs.hpp"

namespace waxwright {

namespace {

bool has_own_or_like(const Completing& c, BlockId id, Key key) {
    return id != no_block && c.asked.look().model().entry(id, key) != nullptr;
}

/// Where a property stands in the list.
enum class Need { needed, may_be, taken_over, no_more };

/// How a needed one says so: of a vessel one of several is enough.
std::string needed_words(std::size_t one_of) {
    constexpr std::string_view numbers[] = {"two", "three"};
    if (one_of < 2 || one_of - 2 >= std::size(numbers)) return "needed; ";
    return fmt::format("needed, one of these {}; ", numbers[one_of - 2]);
}

void add_property(Completing& c, const PropertyInfo& info, Need need, std::size_t one_of) {
    const std::string_view key = word(info.key);
    const std::size_t next = c.line_rest().find_first_not_of(" \t");
    // Within a line that is there only the key is another.
    const std::size_t rest = first_word(c.line_rest()).size();
    const std::string_view behind = trimmed(c.line_rest().substr(rest));
    const bool colon = next != std::string_view::npos && behind.starts_with(':');
    std::string words(info.doc);
    if (!info.fallback.empty()) words += fmt::format("; default: {}", info.fallback);
    c.add(need == Need::needed   ? Group::first
          : need == Need::may_be ? Group::then
                                 : Group::more,
          {.label = std::string(key),
           .kind = ProposalKind::property,
           .detail = fmt::format("{}{}",
                                 need == Need::taken_over ? "taken over by like; "
                                 : need == Need::needed   ? needed_words(one_of)
                                                          : "",
                                 info.doc),
           .words = std::move(words),
           .text = colon ? std::string(key) : fmt::format("{}: ", key)});
}

/// What a vessel still needs hangs on what it says already.
Need need_in_vessel(const VesselNeeds& needs, Key key) {
    const auto is_in = [key](const std::vector<Key>& keys) {
        return std::ranges::find(keys, key) != keys.end();
    };
    const bool needed = is_in(needs.one_of) || (key == Key::headspace && needs.headspace) ||
                        (key == Key::bore && needs.bore);
    return needed ? Need::needed : is_in(needs.no_more) ? Need::no_more : Need::may_be;
}

void add_properties(Completing& c) {
    const BlockKind kind = c.place.kind;
    const BlockId id = block_here(c);
    const auto has = [&](Key key) { return c.place.has(word(key)) || has_own_or_like(c, id, key); };
    const VesselNeeds vessel = kind == BlockKind::vessel ? vessel_needs(has) : VesselNeeds{};
    const auto need_of = [&](const PropertyInfo& info) {
        if (has_own_or_like(c, id, info.key)) return Need::taken_over;
        if (info.needed) return Need::needed;
        return need_in_vessel(vessel, info.key);
    };
    const auto one_of = [&](Key key) {
        const bool is_one = std::ranges::find(vessel.one_of, key) != vessel.one_of.end();
        return is_one ? vessel.one_of.size() : 0;
    };
    for (const Need need : {Need::needed, Need::may_be, Need::taken_over, Need::no_more}) {
        for (const BlockKind rows : {kind, BlockKind::unknown}) {
            for (const PropertyInfo& info : properties_of(rows)) {
                if (c.place.has(word(info.key)) || need_of(info) != need) continue;
                // not `sold` of what is never bought
                if (find_property(kind, info.key) != nullptr)
                    add_property(c, info, need, one_of(info.key));
            }
        }
    }
}

void add_line(Completing& c, Group group, std::string_view label, std::string_view places,
              std::string_view words) {
    c.add(group, {.label = std::string(label),
                  .kind = ProposalKind::keyword,
                  .detail = std::string(words),
                  .text = with_places(places, c.snippets()),
                  .snippet = true});
}

void add_statements_of_block(Completing& c) {
    switch (c.place.kind) {
    case BlockKind::recipe:
        if (!c.place.has("steps")) {
            add_line(c, Group::first, "steps", "steps {\n    …\n  }",
                     "what is done, one step a line");
        }
        add_line(c, Group::more, "allow", "allow ",
                 "a warning or a note that is fine here, and why");
        break;
    case BlockKind::batch:
        add_line(c, Group::first, "pour", "pour … …", "how many of which recipe");
        break;
    case BlockKind::stock:
        add_line(c, Group::first, "have", "have … …", "how much of what is there");
        break;
    default:
        break;
    }
}

void add_rule(Completing& c, Group group, Rule rule, std::string_view found) {
    const RuleInfo& about = info(rule);
    c.add(group, {.label = std::string(about.name),
                  .kind = ProposalKind::rule,
                  .detail = std::string(found.empty() ? word(about.severity) : found),
                  .words = std::string(about.about),
                  .text = with_places(fmt::format("{} because \"…\"", about.name), c.snippets()),
                  .snippet = true});
}

/// First what this recipe's findings are, then all that is no error.
void add_rules(Completing& c) {
    const BlockId id = block_here(c);
    std::vector<Rule> fired;
    for (const Finding& finding : c.asked.look().workshop.findings.all()) {
        const bool here =
            id != no_block &&
            std::ranges::find(finding.subjects, id, &Subject::recipe) != finding.subjects.end();
        const bool may = finding.severity != Severity::error && !finding.because &&
                         finding.rule != Rule::allow_unused;
        if (!here || !may || std::ranges::find(fired, finding.rule) != fired.end()) continue;
        fired.push_back(finding.rule);
        add_rule(c, Group::first, finding.rule, finding.message);
    }
    for (const RuleInfo& rule : all_rules()) {
        const bool may = rule.severity != Severity::error && rule.rule != Rule::allow_unused;
        if (!may || std::ranges::find(fired, rule.rule) != fired.end()) continue;
        add_rule(c, Group::then, rule.rule, {});
    }
}

void complete_allow(Completing& c, std::string_view typed) {
    const TypedWords tokens = tokens_of(typed);
    if (tokens.empty()) return add_rules(c);
    if (tokens.all.size() == 1) add_line(c, Group::first, "because", "because \"…\"", "the reason");
}

void complete_pour(Completing& c, std::string_view typed) {
    complete_value(c,
                   {.block = BlockKind::batch,
                    .key = Key::makes,
                    .shape = Shape::one_of,
                    .refers = BlockKind::recipe,
                    .doc = {}},
                   typed);
}

void complete_have(Completing& c, std::string_view typed) {
    const TypedWords tokens = tokens_of(typed);
    if (tokens.wants_unit() && tokens.all.size() == 1) {
        add_units(c, tokens, dimension::mass);
        add_units(c, tokens, dimension::volume, Group::more);
        add_names(c, {.of = [](BlockKind kind) { return bought(kind) == Bought::by_piece; }},
                  Group::then);
    } else if (tokens.ends_in_unit()) {
        add_names(c, {.of = is_matter}, Group::first);
    } else if (tokens.ends_in(TypedWord::What::word)) {
        add_line(c, Group::first, "lot", "lot \"…\"", "the supplier's lot");
    }
}

} // namespace

void complete_member(Completing& c) {
    const std::string_view typed = c.place.typed;
    const std::string_view word = first_word(typed);
    const std::string_view behind = typed.substr(word.size());
    if (behind.empty()) {
        add_properties(c);
        add_statements_of_block(c);
        return;
    }
    const std::size_t colon = behind.find_first_not_of(" \t");
    if (colon != std::string_view::npos && behind[colon] == ':') {
        const auto key = find_key(word);
        const PropertyInfo* info = key ? find_property(c.place.kind, *key) : nullptr;
        if (info != nullptr) complete_value(c, *info, behind.substr(colon + 1));
        return;
    }
    if (word == "allow") return complete_allow(c, behind);
    if (word == "pour" && c.place.kind == BlockKind::batch) return complete_pour(c, behind);
    if (word == "have" && c.place.kind == BlockKind::stock) return complete_have(c, behind);
}

namespace {

/// With what a block of this kind must have; `…` for its name and for each value.
std::string block_with_places(BlockKind kind) {
    std::string text = fmt::format("{} … {{\n", word(kind));
    bool any = false;
    for (const PropertyInfo& info : properties_of(kind)) {
        if (!info.needed) continue;
        text += fmt::format("  {}: …\n", word(info.key));
        any = true;
    }
    if (kind == BlockKind::recipe) text += "  steps {\n    …\n  }\n";
    if (!any && kind != BlockKind::recipe) text += "  …\n";
    return text + "}";
}

/// The same as a snippet. A name stands in it, so that it is a block from the start.
std::string block_snippet(BlockKind kind) {
    std::string text = with_places(block_with_places(kind), true);
    constexpr std::string_view name = "$1";
    return text.replace(text.find(name), name.size(), fmt::format("${{1:{}}}", usual_name(kind)));
}

void add_statements_of_file(Completing& c) {
    if (!c.place.has("language"))
        add_line(c, Group::first, "language 1", "language 1", "the edition of the language");
    add_line(c, Group::first, "use", "use ",
             "modules of the library, or a file of your own in quotes");
    for (const std::string_view text : block_kind_words()) {
        const BlockKind kind = find_block_kind(text);
        c.add(Group::then, {.label = std::string(text),
                            .kind = ProposalKind::kind,
                            .detail = fmt::format("{} and its properties", with_article(kind)),
                            .text = c.snippets() ? block_snippet(kind) : fmt::format("{} ", text),
                            .snippet = true});
    }
    add_line(c, Group::then, "let", "let … = …", "a name for a figure, a load or a blend");
    if (!c.place.has("currency"))
        add_line(c, Group::more, "currency", "currency ", "what $ stands for");
}

void complete_use(Completing& c, std::string_view typed) {
    const TypedWords tokens = tokens_of(typed);
    if (!tokens.empty() && !tokens.ends_in(",")) return;
    add_modules(c, Group::first);
    add_files(c, true);
}

/// Behind the kind a new name stands: there is nothing to offer.
void complete_head(Completing& c, BlockKind kind, std::string_view typed) {
    const TypedWords tokens = tokens_of(typed);
    if (tokens.all.size() == 1) {
        add_line(
            c, Group::first, "like", "like ",
            fmt::format("takes over what another {} says; write only what differs", word(kind)));
    }
    if (tokens.all.size() == 2 && tokens.ends_in("like")) {
        add_names(c, {.of = only(kind), .but_own_head = true}, Group::first);
    }
}

} // namespace

void complete_statement(Completing& c) {
    const std::string_view typed = c.place.typed;
    const std::string_view word = first_word(typed);
    const std::string_view behind = typed.substr(word.size());
    if (behind.empty()) return add_statements_of_file(c);
    if (!is_blank(behind[0])) return;
    if (word == "use") return complete_use(c, behind);
    if (word == "language") {
        if (trimmed(behind).empty()) add_words(c, {"1"});
    } else if (word == "currency") {
        for (const CurrencyInfo& each : all_currencies())
            c.add(Group::first, {.label = std::string(each.code), .kind = ProposalKind::choice});
    } else if (word == "let") {
        const std::size_t equals = behind.find('=');
        if (equals != std::string_view::npos) complete_let(c, behind.substr(equals + 1));
    } else if (const BlockKind kind = find_block_kind(word); kind != BlockKind::unknown) {
        complete_head(c, kind, behind);
    }
}

} // namespace waxwright
