// libFuzzer target: any bytes as a recipe file, through parse, model, reckoning and check, and
// where there is no error through every sheet; and tidied. Nothing may crash, hang, or leave the
// tree unsound.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "driver/mend.hpp"
#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "emit/markdown.hpp"
#include "emit/sarif.hpp"
#include "emit/svg.hpp"
#include "emit/toml.hpp"
#include "pipeline/pipeline.hpp"
#include "syntax/parse.hpp"
#include "tidy/diff.hpp"
#include "tidy/tidy.hpp"

namespace {

using namespace waxwright;

void require(bool good) {
    if (!good) std::abort();
}

void print_sheets(const Workshop& workshop) {
    for (const Task& recipe : workshop.recipes) {
        const Plan plan = plan_of(workshop, recipe);
        require(!markdown_sheet(plan, {}).empty());
        require(!toml_sheet(plan).empty());
        const BlockId id = recipe.job.recipe;
        require(!svg_picture(plan, pictures_of(workshop, id), false).empty());
    }
    for (const BatchTasks& batch : workshop.batches) {
        const Plan plan = plan_of(workshop, batch.batch);
        require(!markdown_sheet(plan, {.us_units = true}).empty());
        require(!toml_sheet(plan).empty());
        require(!svg_picture(plan, pictures_of(workshop, batch.batch), true).empty());
    }
}

/// The forms for programs take what any input may say; and mending never adds an error.
void print_findings(const Sources& sources, const Workshop& workshop, const ReadFile& read) {
    const Findings& findings = workshop.findings;
    require(findings.all().empty() || !findings_json(findings, workshop.model).empty());
    require(!sarif_log(findings, workshop.model, {}).empty());
    constexpr std::size_t few = 50; // each fix is tried by itself
    if (!findings.has_errors() || findings.all().size() > few) return;
    const Mending mending =
        mend(sources, workshop, std::vector<bool>(all_rules().size(), true), read);
    Sources mended;
    mended.add("fuzz.candle", mending.texts[0]);
    Workshop after = open_workshop(std::move(mended), read);
    work(after);
    require(after.findings.count(Severity::error) <= findings.count(Severity::error));
}

/// What is tidied is tidy, has as many findings as before, and a diff where it is another.
void tidy_it(const Sources& sources, std::size_t findings, const ReadFile& read) {
    Findings mistakes;
    const auto form = tidied(0, sources[0], mistakes);
    require(form.has_value() == mistakes.all().empty());
    if (!form) return;
    const std::string diff = unified_diff("fuzz.candle", sources[0].text(), *form);
    require(diff.empty() == (form->text == sources[0].text()));
    Sources again;
    again.add("fuzz.candle", form->text);
    const auto second = tidied(0, again[0], mistakes);
    require(second && second->text == form->text);
    Workshop after = open_workshop(std::move(again), read);
    work(after);
    require(after.findings.all().size() == findings);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(reinterpret_cast<const char*>(data), size); // NOLINT: bytes are chars
    Sources sources;
    sources.add("fuzz.candle", text);
    {
        Findings findings;
        require(is_sound(parse(0, sources[0], findings)));
    }
    // A few used files are there, each the input itself cut in half: loops, and files within files.
    const ReadFile read = [&](const std::string& path) -> std::optional<std::string> {
        if (path != "a.candle" && path != "b" && path != "b/a.candle") return std::nullopt;
        return text.substr(text.size() / 2);
    };
    Workshop workshop = open_workshop(std::move(sources), read);
    const Sources& files = workshop.model.sources;
    work(workshop);
    const std::string report =
        findings_text(workshop.findings, files, {.notes = true}, &workshop.model);
    require(workshop.findings.has_errors() ? !report.empty() : true);
    print_findings(files, workshop, read);
    tidy_it(files, workshop.findings.all().size(), read);
    if (!workshop.findings.has_errors()) print_sheets(workshop);
    return 0;
}
