#include "reckon/weigh.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include "reckon/number.hpp"

namespace waxwright {

namespace {

constexpr double countable = 9007199254740992; // 2^53

/// What the sum of a few products may be off by, in divisions. Capped, so that it never comes near
/// a half division in a very large mass.
double slack(double count) {
    return std::min(same * std::max(1.0, count), 1e-6);
}

double whole_down(double count) {
    return std::floor(count + slack(count));
}

double whole_nearest(double count) {
    return std::floor(count + 0.5 + slack(count));
}

struct Remainder {
    std::int64_t size; // in 1e-8 of a division, so that equal ones are equal
    std::size_t line;
};

/// One more division for the `left` lines with the largest remainders. `counts` are whole
/// divisions.
void hand_out(double left, std::span<const double> exact, double division,
              std::span<double> counts) {
    std::vector<Remainder> order(exact.size());
    for (std::size_t i = 0; i < exact.size(); ++i) {
        order[i] = {std::llround((exact[i] / division - counts[i]) * 1e8), i};
    }
    std::sort(order.begin(), order.end(), [](const Remainder& one, const Remainder& other) {
        return one.size != other.size ? one.size > other.size : one.line < other.line;
    });
    for (const Remainder& next : order) {
        if (left < 1) break;
        counts[next.line] += 1;
        left -= 1;
    }
}

} // namespace

double usual_division(double grams, bool ounces) {
    if (ounces) return (grams < 2 * an_ounce * (1 - same) ? 0.01 : 0.1) * an_ounce;
    return grams < 20 * (1 - same) ? 0.1 : 1;
}

double usual_division(std::span<const double> exact, bool ounces) {
    double finest = ounces ? 0.1 * an_ounce : 1;
    for (const double grams : exact)
        finest = std::min(finest, usual_division(grams, ounces));
    return finest;
}

double divisions(double count, double division) {
    const double in_a_gram = std::round(1 / division);
    const bool decimal =
        in_a_gram >= 1 && in_a_gram <= 1e9 && std::abs(in_a_gram * division - 1) <= same;
    return decimal ? count / in_a_gram : count * division;
}

double weigh_out(std::span<const double> exact, double division, std::span<double> weighed) {
    double sum = 0;
    double floors = 0;
    for (std::size_t i = 0; i < exact.size(); ++i) {
        const double count = exact[i] / division;
        sum += count;
        weighed[i] = whole_down(count);
        floors += weighed[i];
    }
    if (!(sum < countable)) {
        std::copy(exact.begin(), exact.end(), weighed.begin());
        double grams = 0;
        for (const double line : exact) {
            grams += line;
        }
        return grams;
    }
    const double total = std::max(whole_nearest(sum), floors);
    if (total > floors) hand_out(total - floors, exact, division, weighed);
    for (double& line : weighed) {
        line = divisions(line, division);
    }
    return divisions(total, division);
}

} // namespace waxwright
