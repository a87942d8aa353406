// One pair of hands is never in two places.
#include "reckon/worker.hpp"

#include <array>
#include <random>
#include <vector>

#include <doctest/doctest.h>

using namespace waxwright;
using doctest::Approx;

TEST_CASE("free hands take work when it is wanted") {
    Worker worker;
    const std::array wanted = {Interval{10, 20}};
    CHECK(worker.earliest(wanted, 5) == 5);
    worker.take(wanted, 5); // busy from 15 to 25
    CHECK(worker.taken() == 10);
}

TEST_CASE("work waits till the hands are free, and no longer") {
    Worker worker;
    const std::array first = {Interval{0, 10}, Interval{100, 110}};
    worker.take(first, 0);
    const std::array same = {Interval{0, 10}, Interval{100, 110}};
    CHECK(worker.earliest(same, 0) == Approx(10)); // 10–20 and 110–120
    const std::array longer = {Interval{0, 95}};
    CHECK(worker.earliest(longer, 0) == Approx(110)); // 90 s between the two are too few
    const std::array moment = {Interval{5, 5}};
    CHECK(worker.earliest(moment, 0) == 0); // what takes no time is in nobody's way
}

TEST_CASE("random work: never two things at once, never later than trying every second finds") {
    std::mt19937 random(7);
    const auto up_to = [&](int most) { return static_cast<double>(random() % unsigned(most)); };
    for (int round = 0; round < 200; ++round) {
        Worker worker;
        std::vector<Interval> busy;
        for (int work = 0; work < 8; ++work) {
            const double a = up_to(20);
            const double b = a + 1 + up_to(10);
            const double c = b + up_to(30);
            const std::array wanted = {Interval{a, b}, Interval{c, c + 1 + up_to(5)}};
            const auto fits = [&](double begins) {
                for (const Interval& each : wanted) {
                    for (const Interval& other : busy) {
                        if (begins + each.begins < other.ends &&
                            other.begins < begins + each.ends) {
                            return false;
                        }
                    }
                }
                return true;
            };
            const double from = up_to(40);
            double tried = from;
            while (!fits(tried))
                tried += 1; // all times here are whole seconds
            const double found = worker.earliest(wanted, from);
            CHECK(found == Approx(tried));
            worker.take(wanted, found);
            for (const Interval& each : wanted)
                busy.push_back({found + each.begins, found + each.ends});
        }
    }
}
