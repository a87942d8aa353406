#include "check/leftover.hpp"

namespace waxwright {

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
    if (said != nullptr && said->fraction == 0 && scent != nullptr) {
        findings.report(Rule::scent_without_load, load->at,
                        "there is a scent, and a load of 0 % has none of it in",
                        "write how much: `load: 6% of wax`, for example; wax without scent has "
                        "neither `scent` nor `load`");
    }
}

} // namespace waxwright
