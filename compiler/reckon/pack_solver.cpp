#include "reckon/pack_solver.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace waxwright {

namespace {

// Products of two amounts or prices.
__extension__ using Wide = __int128;

struct Offer {
    Wide amount;
    Wide price;
    std::size_t pack; // its place in the caller's list
};

/// What a choice is judged by, in this order.
struct Worth {
    Wide price;
    Wide packs;
    Wide amount;
};
bool operator<(const Worth& a, const Worth& b) {
    return std::tie(a.price, a.packs, a.amount) < std::tie(b.price, b.packs, b.amount);
}

constexpr Wide divided_up(Wide a, Wide b) {
    return a <= 0 ? 0 : (a + b - 1) / b;
}

/// Best price per amount first; of the same, the largest.
bool is_better(const Offer& a, const Offer& b) {
    const Wide left = a.price * b.amount;
    const Wide right = b.price * a.amount;
    return left != right ? left < right : a.amount > b.amount;
}

/// Without packs that are dearer than one that holds as much or more: that one is always the better
/// choice. Of two alike the first stays.
std::vector<Offer> worth_a_look(std::span<const WholePack> packs) {
    std::vector<Offer> all;
    all.reserve(packs.size());
    for (std::size_t i = 0; i < packs.size(); ++i)
        all.push_back({packs[i].amount, packs[i].price, i});
    std::sort(all.begin(), all.end(), [](const Offer& a, const Offer& b) {
        return std::tie(b.amount, a.price, a.pack) < std::tie(a.amount, b.price, b.pack);
    });
    std::vector<Offer> kept;
    for (const Offer& offer : all) { // from the largest down: prices may only stay or fall
        const bool dearer = !kept.empty() && offer.price > kept.back().price;
        const bool again = !kept.empty() && offer.amount == kept.back().amount;
        if (!dearer && !again) kept.push_back(offer);
    }
    std::sort(kept.begin(), kept.end(), is_better);
    return kept;
}

class Search {
public:
    Search(std::vector<Offer> offers, Wide need) : offers_(std::move(offers)), need_(need) {
        counts_.assign(offers_.size(), 0);
        // The largest of each pack and all behind it.
        largest_.assign(offers_.size(), 0);
        Wide largest = 0;
        for (std::size_t i = offers_.size(); i-- > 0;)
            largest_[i] = largest = std::max(largest, offers_[i].amount);
        Wide common = 0;
        for (const Offer& offer : offers_)
            common = std::gcd(static_cast<std::int64_t>(common),
                              static_cast<std::int64_t>(offer.amount));
        most_others_ = offers_.front().amount / common - 1;
    }

    void run() { choose(0, need_, {0, 0, 0}); }

    bool proven() const { return branches_ < most_branches; }
    const Worth& best() const { return best_; }
    const std::vector<Wide>& best_counts() const { return best_counts_; }
    const std::vector<Offer>& offers() const { return offers_; }

private:
    /// No choice that still lacks `rest`, from pack `i` on, is better than this.
    Worth bound(std::size_t i, Wide rest, const Worth& so_far) const {
        return {so_far.price + divided_up(rest * offers_[i].price, offers_[i].amount),
                so_far.packs + divided_up(rest, largest_[i]), std::max(need_, so_far.amount)};
    }

    void keep_if_better(const Worth& worth) {
        if (!best_counts_.empty() && !(worth < best_)) return;
        best_ = worth;
        best_counts_ = counts_;
    }

    void choose(std::size_t i, Wide rest, const Worth& so_far) {
        const Offer& offer = offers_[i];
        const Wide most = divided_up(rest, offer.amount);
        const bool last = i + 1 == offers_.size();
        for (Wide count = most; count >= 0 && proven(); --count) {
            ++branches_;
            counts_[i] = count;
            const Worth worth{so_far.price + count * offer.price, so_far.packs + count,
                              so_far.amount + count * offer.amount};
            if (count == most) {
                keep_if_better(worth);
            } else if (last || others_are_too_many(i, count)) {
                break;
            } else {
                const Wide missing = rest - count * offer.amount;
                const Worth least = bound(i + 1, missing, worth);
                if (least.price > best_.price) break;
                if (least < best_) choose(i + 1, missing, worth);
            }
        }
        counts_[i] = 0;
    }

    /// Of the best pack so few that the rest would take more others than ever need be taken.
    bool others_are_too_many(std::size_t i, Wide count) const {
        if (i > 0) return false;
        return divided_up(need_ - count * offers_[0].amount, largest_[1]) > most_others_;
    }

    std::vector<Offer> offers_;
    std::vector<Wide> largest_;
    std::vector<Wide> counts_;
    std::vector<Wide> best_counts_;
    Wide need_;
    Wide most_others_ = 0;
    Worth best_{0, 0, 0};
    std::int64_t branches_ = 0;
};

/// So deep the search goes; offers of a thing are few.
constexpr std::size_t most_offers = 64;

} // namespace

std::optional<PackChoice> cheapest_packs(std::span<const WholePack> packs, std::int64_t need) {
    if (packs.empty() || need > most_units) return std::nullopt;
    for (const WholePack& pack : packs) {
        const bool amount = pack.amount >= 1 && pack.amount <= most_units;
        if (!amount || pack.price < 0 || pack.price > most_units) return std::nullopt;
    }
    PackChoice choice;
    choice.counts.assign(packs.size(), 0);
    if (need <= 0) return choice;

    std::vector<Offer> offers = worth_a_look(packs);
    choice.proven = offers.size() <= most_offers;
    if (!choice.proven) offers.resize(most_offers);
    Search search(std::move(offers), need);
    search.run();
    choice.proven = choice.proven && search.proven();
    choice.price = static_cast<double>(search.best().price);
    choice.amount = static_cast<double>(search.best().amount);
    for (std::size_t i = 0; i < search.offers().size(); ++i) {
        choice.counts[search.offers()[i].pack] = static_cast<std::int64_t>(search.best_counts()[i]);
    }
    return choice;
}

} // namespace waxwright
