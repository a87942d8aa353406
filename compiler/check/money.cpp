#include "check/money.hpp"

#include <fmt/format.h>

#include "check/tell.hpp"

namespace waxwright {

namespace {

/// Looks at one pack after the other for a second currency.
class Currencies {
public:
    explicit Currencies(const Model& model) : model_(model) {}

    void look_at(BlockId thing) {
        const auto* sold = model_.get<Packs>(thing, Key::sold);
        if (sold == nullptr) return;
        for (std::uint32_t i = 0; i < sold->packs.count && second_ == nullptr; ++i) {
            const Pack& pack = model_.packs[sold->packs.first + i];
            if (pack.currency == no_money) continue;
            if (first_ == nullptr) {
                first_ = &pack;
                first_thing_ = thing;
            } else if (pack.currency != first_->currency) {
                second_ = &pack;
                second_thing_ = thing;
            }
        }
    }

    void tell_if_mixed(const Job& job, Findings& findings) const {
        if (second_ == nullptr) return;
        const std::string_view one = code_of(first_->currency);
        const std::string_view other = code_of(second_->currency);
        Finding& finding =
            tell(findings, job, Rule::mixed_currency, model_.blocks[job.recipe].name_at,
                 fmt::format("`{}` is priced in {} and `{}` in {}", model_.name(first_thing_), one,
                             model_.name(second_thing_), other),
                 "write all prices of a recipe in one currency: there is no rate to turn one into "
                 "the other");
        relate(model_, finding, first_->at, fmt::format("{} here", one));
        relate(model_, finding, second_->at, fmt::format("{} here", other));
    }

private:
    const Model& model_;
    const Pack* first_ = nullptr;
    const Pack* second_ = nullptr;
    BlockId first_thing_ = no_block;
    BlockId second_thing_ = no_block;
};

} // namespace

void check_money(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.job;
    Currencies currencies(model);
    currencies.look_at(job.vessel);
    for (const Key key : {Key::wax, Key::scent, Key::additives}) {
        for (const Share& share : model.blend(job.recipe, key))
            currencies.look_at(share.material);
    }
    for (const Key key : {Key::wick, Key::extras}) {
        for (const Count& count : model.count_list(job.recipe, key))
            currencies.look_at(count.block);
    }
    currencies.tell_if_mixed(job, findings);
}

} // namespace waxwright
