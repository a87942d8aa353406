#include "reckon/loads.hpp"

#include "reckon/number.hpp"

namespace waxwright {

std::optional<double> load_of_wax(double of_total, double a) {
    if (!(of_total >= 0 && of_total < 1)) return std::nullopt;
    return sound(of_total * (1 + a) / (1 - of_total));
}

double load_of_total(double of_wax, double a) {
    return of_wax / (1 + of_wax + a);
}

std::optional<double> limit_of_wax(double of_total) {
    return load_of_wax(of_total, 0);
}

double load_at_limit(double limit, double share) {
    return limit / share;
}

double wax_in(double grams, double of_wax, double a) {
    return grams / (1 + of_wax + a);
}

std::optional<double> Mean::value() const {
    return sound(sum_ / shares_); // of nothing it is 0/0, which is no number
}

} // namespace waxwright
