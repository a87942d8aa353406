// Scent loads and their bases. All are mass fractions. `a` is all additives as a fraction of the
// wax. The two bases and the way between them are common practice; that limits of total are shares
// of the finished mixture is how the IFRA library and the CLP regulation state theirs.
#pragma once

#include <optional>

namespace waxwright {

/// A load of total as a load of wax: f = g (1 + a) / (1 - g), from g = f / (1 + f + a). Nothing
/// from a load of total of 100 % on, or under 0.
std::optional<double> load_of_wax(double of_total, double a);
/// A load of wax as a load of total: f / (1 + f + a).
double load_of_total(double of_wax, double a);

/// A wax's own limit said `of total`, where only wax and scent count: h / (1 - h) of wax. Nothing
/// from 100 % on, or under 0.
std::optional<double> limit_of_wax(double of_total);

/// The load at which a scent's oil, `share` of it (over 0), reaches its own limit: limit / share,
/// on the limit's basis. What the whole scent may be is the lowest of these.
double load_at_limit(double limit, double share);

/// g of wax in `grams` of mixture: W = m / (1 + f + a). Scent is f W, additives a W.
double wax_in(double grams, double of_wax, double a);

/// A mean weighted by mass (common practice for a blend's limits and temperatures).
class Mean {
public:
    void add(double share, double value) {
        sum_ += share * value;
        shares_ += share;
    }
    /// Nothing of nothing.
    std::optional<double> value() const;

private:
    double sum_ = 0;
    double shares_ = 0;
};

} // namespace waxwright
