// The findings of `check`, as they are typed; and their fixes, to be chosen from.
#include <algorithm>

#include <fmt/format.h>

#include "editor/features.hpp"

namespace waxwright {

namespace {

// LSP's DiagnosticSeverity.
constexpr int severity_error = 1;
constexpr int severity_warning = 2;
constexpr int severity_information = 3;
constexpr int severity_hint = 4;

int severity_of(const Finding& finding) {
    if (finding.because) return severity_hint; // allowed: it is known, and said why
    switch (finding.severity) {
    case Severity::error:
        return severity_error;
    case Severity::warning:
        return severity_warning;
    case Severity::note:
        break;
    }
    return severity_information;
}

/// The message and its hint; then what the rule says there in other words.
std::string words_of(const Finding& finding) {
    std::string words = finding.message;
    const auto add = [&words](std::string_view line) {
        if (!line.empty()) words += fmt::format("\n{}", line);
    };
    add(finding.hint);
    for (const Also& also : finding.also) {
        add(also.message);
        add(also.hint);
    }
    if (finding.because) add(fmt::format("allowed because {}", *finding.because));
    return words;
}

Json diagnostic(const View& view, const Finding& finding) {
    Json json{{"range", view.range(finding.at)},
              {"severity", severity_of(finding)},
              {"code", info(finding.rule).name},
              {"source", "waxwright"},
              {"message", words_of(finding)}};
    if (finding.rule == Rule::unused_name) json["tags"] = {1}; // Unnecessary: may be shown faded
    if (!view.client.related) return json;
    for (const Related& related : finding.related) {
        if (view.look.source(related.at.file).is_library()) continue; // no client can open it
        json["relatedInformation"].push_back(
            {{"location", view.location(related.at)}, {"message", related.text}});
    }
    return json;
}

/// A finding at one place counts for a cursor at either end of it too.
bool touches(Span a, Span b) {
    return a.file == b.file && a.begin <= b.end && b.begin <= a.end;
}

/// Whether the client wants actions of this kind, or of one that has it within.
bool wants(const Json& params, std::string_view kind) {
    const auto context = params.find("context");
    if (context == params.end() || !context->contains("only")) return true;
    for (const Json& each : context->at("only")) {
        const auto wanted = each.get<std::string>();
        if (wanted.empty() || kind == wanted || kind.starts_with(wanted + ".")) return true;
    }
    return false;
}

} // namespace

std::map<FileId, Json> diagnostics(const View& view) {
    std::map<FileId, Json> by_file;
    for (const Finding& finding : view.look.workshop.findings.all()) {
        const FileId file = finding.at.file;
        if (view.look.source(file).is_library()) continue;
        Json& list = by_file.try_emplace(file, Json::array()).first->second;
        list.push_back(diagnostic(view, finding));
    }
    return by_file;
}

Reply code_action(const Asked& asked, const Json& params) {
    constexpr std::string_view kind = "quickfix";
    Json actions = Json::array();
    if (!wants(params, kind)) return actions;
    const View& view = asked.view;
    const Span chosen =
        span_of(asked.file, asked.source(), params.at("range"), view.client.encoding);
    for (const Finding& finding : asked.look().workshop.findings.all()) {
        if (!touches(finding.at, chosen)) continue;
        for (const Fix& fix : finding.fixes) {
            actions.push_back({{"title", fix.title},
                               {"kind", kind},
                               {"isPreferred", fix.certain},
                               {"diagnostics", Json::array({diagnostic(view, finding)})},
                               {"edit", view.workspace_edit(fix.edits)}});
        }
    }
    return actions;
}

} // namespace waxwright
