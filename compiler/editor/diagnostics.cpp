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

/// Where a file uses one that has errors: its own findings stand there, on a page that may not be
/// open, and without it nothing can be reckoned here.
void add_broken_uses(const View& view, FileId file, std::map<FileId, Json>& by_file) {
    const Notebook& notebook = view.look.notebook;
    std::map<FileId, std::vector<const Finding*>> errors;
    for (const Finding& finding : view.look.workshop.findings.all()) {
        if (finding.severity == Severity::error) errors[finding.at.file].push_back(&finding);
    }
    for (const Use& use : notebook.loaded.files[file].uses) {
        const auto found = errors.find(use.file);
        if (found == errors.end() || view.look.source(use.file).is_library()) continue;
        const std::size_t count = found->second.size();
        const Finding& first = *found->second.front();
        const std::string_view path = view.look.source(use.file).name();
        Json json{{"range", view.range(use.at)},
                  {"severity", severity_error},
                  {"code", info(first.rule).name},
                  {"source", "waxwright"},
                  {"message",
                   fmt::format("there {} in `{}`, so nothing is reckoned here\n{}",
                               count == 1 ? "is an error" : fmt::format("are {} errors", count),
                               path.substr(path.rfind('/') + 1), first.message)}};
        if (view.client.related) {
            json["relatedInformation"] =
                Json::array({{{"location", view.location(first.at)}, {"message", first.message}}});
        }
        by_file.try_emplace(file, Json::array()).first->second.push_back(std::move(json));
    }
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
    for (const auto& [path, file] : view.look.files) {
        if (view.documents.find(path) != nullptr) add_broken_uses(view, file, by_file);
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
    const auto offer = [&](const Finding& finding) {
        for (const Fix& fix : finding.fixes) {
            actions.push_back({{"title", fix.title},
                               {"kind", kind},
                               {"isPreferred", fix.certain},
                               {"diagnostics", Json::array({diagnostic(view, finding)})},
                               {"edit", view.workspace_edit(fix.edits)}});
        }
    };
    const Findings::List& all = asked.look().workshop.findings.all();
    for (const Finding& finding : all) {
        if (touches(finding.at, chosen)) offer(finding);
    }
    if (!actions.empty()) return actions;
    // A mark shows the line; to have its fixes the cursor need not be on the very letter.
    const Source& source = asked.source();
    const Span lines{asked.file, source.line_begin(source.line_at(chosen.begin)), chosen.end};
    const std::uint32_t last = source.line_at(chosen.end);
    for (const Finding& finding : all) {
        const bool there = finding.at.file == asked.file && finding.at.end >= lines.begin &&
                           source.line_at(finding.at.begin) <= last;
        if (there) offer(finding);
    }
    return actions;
}

} // namespace waxwright
