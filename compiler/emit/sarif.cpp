#include "emit/sarif.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "emit/findings_data.hpp"
#include "findings/pages.hpp"
#include "source/path.hpp"

namespace waxwright {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view schema =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json";

Json text_of(std::string_view text) {
    return {{"text", text}};
}

/// What a viewer shows as the rule's help: its page, which reads well as it is too.
Json help_of(const RuleInfo& rule) {
    const std::optional<Rule> known = find_rule(rule.name);
    const std::string_view page = known ? page_of(*known) : std::string_view();
    if (page.empty()) return text_of(rule.about);
    return {{"text", page}, {"markdown", page}};
}

Json rule_json(const RuleInfo& rule) {
    return {{"id", rule.name},
            {"shortDescription", text_of(rule.about)},
            {"help", help_of(rule)},
            {"defaultConfiguration", {{"level", word(rule.severity)}}},
            {"properties", {{"family", word(rule.family)}}}};
}

class Log {
public:
    Log(const Model& model, const SarifStyle& style) : model_(model), style_(style) {}

    Json run(const Findings& findings) const {
        Json results = Json::array();
        for (const Finding& finding : findings.all())
            results.push_back(result(finding));
        const bool utf16 = style_.columns == Columns::utf16;
        return {{"tool", {{"driver", driver()}}},
                {"invocations", {{{"executionSuccessful", style_.all_read}}}},
                {"artifacts", artifacts()},
                {"defaultEncoding", "utf-8"},
                {"newlineSequences", {"\r\n", "\n", "\r"}},
                {"columnKind", utf16 ? "utf16CodeUnits" : "unicodeCodePoints"},
                {"results", std::move(results)}};
    }

private:
    static Json driver() {
        Json rules = Json::array();
        for (const RuleInfo& rule : all_rules())
            rules.push_back(rule_json(rule));
        return {{"name", "waxwright"},
                {"semanticVersion", WAXWRIGHT_VERSION},
                {"rules", std::move(rules)}};
    }

    bool is_root(FileId file) const { return file < model_.roots.size(); }

    Json file_location(FileId file) const {
        return {{"uri", uri_of(model_.sources[file].name(), style_.folder)}, {"index", file}};
    }

    /// Every file of the run in the order of its id, so that the id is the index.
    Json artifacts() const {
        Json all = Json::array();
        for (FileId file = 0; file < model_.sources.size(); ++file) {
            const Source& source = model_.sources[file];
            Json location{{"uri", uri_of(source.name(), style_.folder)}};
            if (source.is_library()) {
                location["description"] = text_of("a module that is built into the program");
            } else if (source.name() == "-") {
                location["description"] = text_of("what was read from standard input");
            }
            Json roles = Json::array();
            if (is_root(file)) roles.push_back("analysisTarget");
            if (is_root(file) && source.name() == "-") roles.push_back("standardStream");
            Json artifact{{"location", std::move(location)}, {"length", source.text().size()}};
            if (!roles.empty()) artifact["roles"] = std::move(roles);
            all.push_back(std::move(artifact));
        }
        return all;
    }

    /// The other kind of columns is told beside, where it differs.
    Json region(Span at) const {
        const Region found = region_of(model_.sources, at);
        const auto columns = [](const Region& of, bool utf16) {
            return std::pair(utf16 ? of.begin.utf16 : of.begin.column,
                             utf16 ? of.end.utf16 : of.end.column);
        };
        const bool utf16 = style_.columns == Columns::utf16;
        const auto ours = columns(found, utf16);
        const auto other = columns(found, !utf16);
        Json json{{"startLine", found.begin.line},
                  {"startColumn", ours.first},
                  {"endLine", found.end.line},
                  {"endColumn", ours.second}};
        if (ours != other) {
            const std::string kind = utf16 ? "unicodeCodePoints" : "utf16CodeUnits";
            json["properties"] = {
                {kind, {{"startColumn", other.first}, {"endColumn", other.second}}}};
        }
        return json;
    }

    Json location(Span at) const {
        return {{"physicalLocation",
                 {{"artifactLocation", file_location(at.file)}, {"region", region(at)}}}};
    }

    /// The message, the hint, and what is so in other recipes, a paragraph each.
    std::string words(const Finding& finding) const {
        std::string text = finding.message;
        if (!finding.hint.empty()) text += "\n\nhint: " + finding.hint;
        for (const Also& also : finding.also) {
            const auto recipes = recipes_of(model_, also.subjects);
            text += recipes.empty() ? std::string("\n\nalso: ")
                                    : fmt::format("\n\nin {}: ", fmt::join(recipes, ", "));
            text += also.message;
            if (!also.hint.empty() && also.hint != finding.hint) text += "\nhint: " + also.hint;
        }
        return text;
    }

    Json fix(const Fix& from) const {
        Json replacements = Json::array();
        for (const Edit& edit : from.edits) {
            Json each{{"deletedRegion", region(edit.at)}};
            if (!edit.text.empty()) each["insertedContent"] = text_of(edit.text);
            replacements.push_back(std::move(each));
        }
        const Json change{{"artifactLocation", file_location(from.edits.front().at.file)},
                          {"replacements", std::move(replacements)}};
        return {{"description", text_of(from.title)},
                {"artifactChanges", Json::array({change})},
                {"properties", {{"certain", from.certain}}}};
    }

    Json result(const Finding& finding) const {
        Json json{{"ruleId", info(finding.rule).name},
                  {"ruleIndex", static_cast<std::size_t>(finding.rule)},
                  {"level", word(finding.severity)},
                  {"message", text_of(words(finding))},
                  {"locations", Json::array({location(finding.at)})}};
        // An empty list says that it is known not to be suppressed.
        json["suppressions"] = Json::array();
        if (finding.because) {
            json["suppressions"].push_back({{"kind", "inSource"},
                                            {"status", "accepted"},
                                            {"justification", *finding.because}});
        }
        for (const Related& related : finding.related) {
            Json each{{"id", json["relatedLocations"].size()}};
            each.update(location(related.at));
            each["message"] = text_of(related.text);
            json["relatedLocations"].push_back(std::move(each));
        }
        for (const Fix& each : finding.fixes)
            json["fixes"].push_back(fix(each));
        const auto recipes = recipes_of(model_, finding.subjects);
        const auto batches = batches_of(model_, finding.subjects);
        json["properties"] = {{"family", word(info(finding.rule).family)}};
        if (!recipes.empty()) json["properties"]["recipes"] = recipes;
        if (!batches.empty()) json["properties"]["batches"] = batches;
        return json;
    }

    const Model& model_;
    const SarifStyle& style_;
};

} // namespace

std::string uri_of(std::string_view name, std::string_view folder) {
    if (name == "-") return "standard-input";
    const std::string relative =
        name.starts_with('/') && !folder.empty() ? relative_path(name, folder) : std::string(name);
    std::string uri;
    for (const char each : relative) {
        const auto c = static_cast<unsigned char>(each);
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || each == '-' || each == '.' || each == '_' ||
                           each == '~' || each == '/';
        uri += plain ? std::string(1, each) : fmt::format("%{:02X}", c);
    }
    return uri;
}

std::string sarif_log(const Findings& findings, const Model& model, const SarifStyle& style) {
    const Json log{{"$schema", schema},
                   {"version", "2.1.0"},
                   {"runs", Json::array({Log(model, style).run(findings)})}};
    return without_turning_marks(log.dump(2, ' ', false, Json::error_handler_t::replace) + "\n");
}

} // namespace waxwright
