#include <nlohmann/json.hpp>

#include "emit/comparison.hpp"
#include "emit/findings_data.hpp"

namespace waxwright {

namespace {

using Json = nlohmann::ordered_json;

/// Its number, or its words; null where the one version has none.
Json bare_json(const std::optional<SheetValue>& value) {
    if (!value) return nullptr;
    if (value->kind == ValueKind::text) return value->text;
    if (value->kind == ValueKind::count) return static_cast<std::int64_t>(value->number);
    return value->number == 0 ? 0.0 : value->number; // no -0.0
}

Json shown_json(const std::optional<SheetValue>& value, bool us_units) {
    if (!value) return nullptr;
    return shown(*value, us_units);
}

Json fact_json(const FactChange& change, bool us_units) {
    Json object{{"what", info(change.aspect).slug}};
    if (!change.of.empty()) object["of"] = change.of;
    if (!change.filling.empty()) object["filling"] = change.filling;
    const SheetValue& any = change.after ? *change.after : *change.before;
    const std::string_view unit =
        any.kind == ValueKind::money ? code_of(any.currency) : unit_word(any.kind);
    if (!unit.empty()) object["unit"] = unit;
    object["old"] = bare_json(change.before);
    object["new"] = bare_json(change.after);
    object["old_shown"] = shown_json(change.before, us_units);
    object["new_shown"] = shown_json(change.after, us_units);
    return object;
}

Json facts_json(const std::vector<FactChange>& changes, bool us_units) {
    Json list = Json::array();
    for (const FactChange& change : changes)
        list.push_back(fact_json(change, us_units));
    return list;
}

Json steps_json(const std::vector<StepChange>& changes, bool us_units) {
    Json list = Json::array();
    for (const StepChange& change : changes) {
        Json object{{"fate", word(change.fate)}, {"verb", info(change.step.verb).slug}};
        if (!change.step.of.empty()) object["of"] = change.step.of;
        if (change.place_before > 0) object["old_place"] = change.place_before;
        if (change.place_after > 0) object["new_place"] = change.place_after;
        object["text"] = change.step.text;
        object["changes"] = facts_json(change.figures, us_units);
        list.push_back(std::move(object));
    }
    return list;
}

/// What recipes and batches have in common.
template <typename Change>
Json named_json(const Change& change) {
    Json object{{"fate", word(change.fate)}, {"name", change.name}, {"title", change.title}};
    if (!change.name_before.empty()) object["old_name"] = change.name_before;
    if (!change.title_before.empty()) object["old_title"] = change.title_before;
    return object;
}

void put_part(Json& object, const PartChange& part, bool us_units) {
    object["changes"] = facts_json(part.facts, us_units);
    object["steps"] = steps_json(part.steps, us_units);
}

Json recipe_json(const SheetChange& sheet) {
    Json object = named_json(sheet);
    const PartChange none{};
    put_part(object, sheet.parts.empty() ? none : sheet.parts.front(), sheet.us_units);
    return object;
}

Json batch_json(const SheetChange& sheet) {
    Json object = named_json(sheet);
    object["changes"] = facts_json(sheet.facts, sheet.us_units);
    object["recipes"] = Json::array();
    for (const PartChange& part : sheet.parts) {
        Json each = named_json(part);
        put_part(each, part, sheet.us_units);
        object["recipes"].push_back(std::move(each));
    }
    return object;
}

Json found_json(const FoundChange& change) {
    const bool both = change.before && change.after;
    const FoundWords& now = change.after ? *change.after : *change.before;
    Json object{{"fate", word(both           ? Fate::changed
                              : change.after ? Fate::added
                                             : Fate::gone)},
                {"rule", info(now.rule).name},
                {"severity", word(now.severity)},
                {"message", now.message}};
    if (now.because) object["allowed_because"] = *now.because;
    if (both) {
        object["old_severity"] = word(change.before->severity);
        object["old_message"] = change.before->message;
        if (change.before->because) object["old_allowed_because"] = *change.before->because;
    }
    object["about"] = change.whom;
    return object;
}

} // namespace

std::string comparison_json(const Comparison& comparison) {
    Json object{{"format", "waxwright-comparison"},
                {"edition", 1},
                {"old", comparison.name_before},
                {"new", comparison.name_after},
                {"same", comparison.same()},
                {"old_has_errors", comparison.errors_before},
                {"new_has_errors", comparison.errors_after},
                {"recipes", Json::array()},
                {"batches", Json::array()},
                {"findings", Json::array()}};
    for (const SheetChange& sheet : comparison.sheets) {
        if (sheet.is_batch) {
            object["batches"].push_back(batch_json(sheet));
        } else {
            object["recipes"].push_back(recipe_json(sheet));
        }
    }
    for (const FoundChange& change : comparison.found)
        object["findings"].push_back(found_json(change));
    return without_turning_marks(object.dump(-1, ' ', false, Json::error_handler_t::replace)) +
           "\n";
}

} // namespace waxwright
