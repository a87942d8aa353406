// The findings of `check`, as they are typed; and their fixes, to be chosen from.
#include <algorithm>

#include <fmt/format.h>

#include "editor/completion_place.hpp"
#include "editor/features.hpp"

namespace waxwright {

namespace {

// LSP's DiagnosticSeverity.
constexpr int severity_error = 1;
constexpr int severity_warning = 2;
constexpr int severity_information = 3;
constexpr int severity_hint = 4;

/// What is only not there yet: a value, the name of a block, its brace, a property that it needs,
/// the scent of a load or the load of a scent, the wick.
bool is_unfinished(const Finding& finding) {
    constexpr Rule lacks[] = {Rule::missing_property, Rule::scent_without_load, Rule::wick_missing};
    if (std::ranges::find(lacks, finding.rule) != std::end(lacks)) return true;
    const std::string_view message = finding.message;
    return finding.rule == Rule::syntax &&
           (message.ends_with(", and the line ends") ||
            message.starts_with("a name for the block is expected") ||
            message.starts_with("the block is not closed"));
}

/// The block that was written in last, since the file was saved; empty without one. The protocol
/// has no cursor: where the text was changed last has to do.
Span block_in_work(const View& view, FileId file) {
    const Source& source = view.look.source(file);
    const Document* document = view.documents.find(source.name());
    if (document == nullptr || !document->typed) return {file, 0, 0};
    const std::string_view text = source.text();
    const Span typed = *document->typed;
    for (const std::size_t at : {std::size_t{typed.end}, text.find_first_of("\r\n", typed.end)}) {
        if (at > text.size()) continue;
        // At the end of its line the name of a head is within its braces.
        const TypingPlace place = place_at(text, static_cast<std::uint32_t>(at));
        if (place.room == TypingPlace::Room::file) continue;
        const std::size_t brace = text.find("\n}", typed.end);
        return {file, place.head, static_cast<std::uint32_t>(std::min(brace, text.size()))};
    }
    return {file, typed.begin, typed.end}; // a whole block at once, or none
}

/// A note for whoever stands at the stove is seen; one for who writes waits till it is asked for.
/// What is allowed is known, and said why.
int severity_of(const Finding& finding, Span in_work) {
    if (finding.because) return severity_hint;
    // What is missing at the end of its last line is there too.
    const bool here = in_work.begin < in_work.end && finding.at.begin >= in_work.begin &&
                      finding.at.begin <= in_work.end;
    const bool mild = here && is_unfinished(finding);
    switch (finding.severity) {
    case Severity::error:
        return mild ? severity_information : severity_error;
    case Severity::warning:
        if (mild) return severity_information;
        return severity_warning;
    case Severity::note:
        break;
    }
    return info(finding.rule).reader == NoteFor::stove ? severity_information : severity_hint;
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

Json diagnostic(const View& view, const Finding& finding, Span in_work) {
    Json json{{"range", view.range(finding.at)},
              {"severity", severity_of(finding, in_work)},
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
    std::map<FileId, Span> in_work;
    for (const Finding& finding : view.look.workshop.findings.all()) {
        const FileId file = finding.at.file;
        if (view.look.source(file).is_library()) continue;
        const auto [list, fresh] = by_file.try_emplace(file, Json::array());
        if (fresh) in_work[file] = block_in_work(view, file);
        list->second.push_back(diagnostic(view, finding, in_work[file]));
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
    const Span in_work = block_in_work(view, asked.file);
    const auto offer = [&](const Finding& finding) {
        for (const Fix& fix : finding.fixes) {
            actions.push_back({{"title", fix.title},
                               {"kind", kind},
                               {"isPreferred", fix.certain},
                               {"diagnostics", Json::array({diagnostic(view, finding, in_work)})},
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
