// Limits of what goes into the wax: the load, and single materials.
#include "reckon/limit_checks.hpp"

namespace waxwright {

namespace {

/// One of the materials beside a limit of its own.
void own_limit(const Amounts& a, const MatterInput& matter, const Given<Load>& limit,
               std::size_t item, const LimitInfo& self, LimitChecks& into) {
    const Load* most = limit.get();
    const bool held = most != nullptr && most->basis != Basis::unsaid && !most->by_volume;
    add(into, self, item, held ? portion(a, matter.kind, matter.share, most->basis) : std::nullopt,
        held ? Maybe(most->fraction) : std::nullopt);
}

} // namespace

/// A load without its scent is `scent-without-load`.
void add_checks_load_over_limit(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                LimitChecks& into) {
    add(into, self, 0, a.load_of_wax, a.limit_of_wax, in.oils().empty());
}
void add_checks_load_near_limit(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                LimitChecks& into) {
    const bool is_over = a.load_of_wax && a.limit_of_wax && over(*a.load_of_wax, *a.limit_of_wax);
    const double near = 0.9 * a.limit_of_wax.value_or(unknown);
    add(into, self, 0, a.load_of_wax, near, is_over || in.oils().empty());
}

void add_checks_oil_over_limit(const Inputs& in, const Amounts& a, const LimitInfo& self,
                               LimitChecks& into) {
    for (std::size_t i = 0; i < in.matter.size(); ++i) {
        const MatterInput& matter = in.matter[i];
        if (matter.kind == MatterKind::oil) own_limit(a, matter, matter.limit, i, self, into);
    }
}
void add_checks_ifra_cat_12_over(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                 LimitChecks& into) {
    for (std::size_t i = 0; i < in.matter.size(); ++i) {
        const MatterInput& matter = in.matter[i];
        if (matter.kind == MatterKind::oil) own_limit(a, matter, matter.certificate, i, self, into);
    }
}
void add_checks_additive_over_limit(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                    LimitChecks& into) {
    for (std::size_t i = 0; i < in.matter.size(); ++i) {
        const MatterInput& matter = in.matter[i];
        if (matter.kind == MatterKind::additive) own_limit(a, matter, matter.limit, i, self, into);
    }
}

} // namespace waxwright
