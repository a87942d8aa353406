#include "emit/findings_json.hpp"

#include <nlohmann/json.hpp>

#include "emit/findings_data.hpp"

namespace waxwright {

namespace {

using Json = nlohmann::ordered_json;

void add_place(Json& object, const Sources& sources, Span at) {
    const Region region = region_of(sources, at);
    object["file"] = sources[at.file].name();
    object["line"] = region.begin.line;
    object["column"] = region.begin.column;
    object["end_line"] = region.end.line;
    object["end_column"] = region.end.column;
    object["utf16_column"] = region.begin.utf16;
    object["end_utf16_column"] = region.end.utf16;
}

Json fix_json(const Sources& sources, const Fix& fix) {
    Json object{{"title", fix.title}, {"certain", fix.certain}, {"edits", Json::array()}};
    for (const Edit& edit : fix.edits) {
        Json each;
        add_place(each, sources, edit.at);
        each["text"] = edit.text;
        object["edits"].push_back(std::move(each));
    }
    return object;
}

Json finding_json(const Model& model, const Finding& finding) {
    const RuleInfo& rule = info(finding.rule);
    Json object{
        {"rule", rule.name}, {"severity", word(finding.severity)}, {"family", word(rule.family)}};
    add_place(object, model.sources, finding.at);
    object["message"] = finding.message;
    if (!finding.hint.empty()) object["hint"] = finding.hint;
    if (finding.because) object["allowed_because"] = *finding.because;
    object["recipes"] = recipes_of(model, finding.subjects);
    object["batches"] = batches_of(model, finding.subjects);
    object["related"] = Json::array();
    for (const Related& related : finding.related) {
        Json each;
        add_place(each, model.sources, related.at);
        each["text"] = related.text;
        object["related"].push_back(std::move(each));
    }
    object["also"] = Json::array();
    for (const Also& also : finding.also) {
        Json each{{"message", also.message}};
        if (!also.hint.empty()) each["hint"] = also.hint;
        each["recipes"] = recipes_of(model, also.subjects);
        each["batches"] = batches_of(model, also.subjects);
        object["also"].push_back(std::move(each));
    }
    object["fixes"] = Json::array();
    for (const Fix& fix : finding.fixes)
        object["fixes"].push_back(fix_json(model.sources, fix));
    return object;
}

} // namespace

std::string findings_json(const Findings& findings, const Model& model) {
    std::string text;
    for (const Finding& finding : findings.all()) {
        text += finding_json(model, finding).dump(-1, ' ', false, Json::error_handler_t::replace);
        text += '\n';
    }
    return without_turning_marks(std::move(text));
}

} // namespace waxwright
