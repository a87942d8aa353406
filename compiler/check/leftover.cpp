#include "check/leftover.hpp"

#include <fmt/format.h>

#include "check/report.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// A percent that doesn't say of what: there is nothing to weigh that would tell the two apart.
void report_basis(const Model& model, const Load& load, Findings& findings) {
    const std::string code = percent_code(load.fraction);
    Finding& finding = findings.report(
        Rule::missing_basis, load.at,
        fmt::format("a load of {} does not say of what: of the wax, or of the total",
                    show_percent(load.fraction)),
        fmt::format("write `{} of wax` or `{} of total`", code, code));
    for (const Basis basis : {Basis::wax, Basis::total}) {
        const Span behind{load.at.file, load.at.end, load.at.end};
        finding.fixes.push_back(
            Fix{fmt::format("write `{} {}`", model.sources.slice(load.at), basis_code(basis)),
                {{behind, fmt::format(" {}", basis_code(basis))}}});
    }
}

} // namespace

void check_leftover(const Model& model, BlockId leftover, Findings& findings) {
    const Entry* scent = model.entry(leftover, Key::scent);
    const Entry* load = model.entry(leftover, Key::load);
    if (scent != nullptr && load == nullptr && !model.unreadable(leftover, Key::load)) {
        findings.report(Rule::scent_without_load, scent->at,
                        "there is a scent and no `load` that says how much of it is in",
                        "write it as the candle had it: `load: … of wax`");
    } else if (load != nullptr && scent == nullptr && !model.unreadable(leftover, Key::scent)) {
        findings.report(Rule::scent_without_load, load->at,
                        "there is a `load` and nothing says of which scent",
                        "write what the scent is: `scent: NAME`; wax without scent has no `load`");
    }
    const auto* said = model.get<Load>(leftover, Key::load);
    if (said == nullptr) return;
    if (said->by_volume) {
        findings.report(
            Rule::volume_load, load->at,
            "this load measures the scent by volume, and the same volume weighs more of "
            "one oil than of another",
            "write it as a percent of the wax, by weight");
    } else if (said->basis == Basis::unsaid) {
        report_basis(model, *said, findings);
    } else if (said->fraction == 0 && scent != nullptr) {
        findings.report(Rule::scent_without_load, load->at,
                        "there is a scent, and a load of 0 % has none of it in",
                        "write how much: `load: 6% of wax`, for example; wax without scent has "
                        "neither `scent` nor `load`");
    }
}

} // namespace waxwright
