// What the latest test burn did, and what is not known. Never that a candle is safe.
#include "emit/markdown_parts.hpp"
#include "units/date.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// "- It: a, b, c": the first of a line's parts begins it, and a line without any isn't there.
class Listed {
public:
    Listed(SheetWriter& sheet, std::string_view begin) : sheet_(sheet), begin_(begin) {}

    SheetWriter& next() {
        sheet_.say(any_ ? ", " : begin_);
        any_ = true;
        return sheet_;
    }
    void end() {
        if (any_) sheet_.say("\n");
    }

private:
    SheetWriter& sheet_;
    std::string_view begin_;
    bool any_ = false;
};

void write_list(SheetWriter& sheet, std::string_view begin,
                const std::vector<std::string>& things) {
    Listed line(sheet, begin);
    for (const std::string& thing : things)
        line.next().user(thing);
    line.end();
}

void write_verdict(SheetWriter& sheet, const TestPlan& test) {
    sheet.say("- Latest test burn ").user(test.name).say(": ");
    if (test.verdict == Choice::unsaid) {
        sheet.say("it has no verdict");
    } else {
        sheet.say("the verdict was ").say(word(test.verdict));
    }
    if (test.on) {
        Date day = *test.on;
        day.has_time = false;
        sheet.say(", on ").say(show(day));
    }
    if (test.samples || !test.make.empty()) sheet.say(", with ");
    if (test.samples) {
        sheet.say(show_number(*test.samples, 0)).say(*test.samples > 1 ? " candles" : " candle");
        if (!test.make.empty()) sheet.say(": ");
    }
    sheet.user(test.make).say("\n");
}

void write_seen(SheetWriter& sheet, const TestPlan& test) {
    Listed line(sheet, "- In that test: ");
    if (test.flame_mm) line.next().say("tallest flame ").length(*test.flame_mm);
    if (test.glass_c) line.next().say("outside ").temperature(*test.glass_c);
    if (test.left_mm) line.next().length(*test.left_mm).say(" of wax left");
    if (test.left_g) line.next().say(show_number(*test.left_g, 1)).say(" g of wax left");
    if (test.cracked == Choice::yes) line.next().say("**the vessel cracked**");
    if (test.cracked == Choice::no) line.next().say("no crack");
    if (test.relit == Choice::yes) line.next().say("**it lit again by itself**");
    if (test.relit == Choice::no) line.next().say("did not light again");
    if (test.soot != Choice::unsaid) {
        const bool none = test.soot == Choice::no || test.soot == Choice::none;
        const bool some = none || test.soot == Choice::yes;
        if (none) line.next().say("no soot");
        if (test.soot == Choice::yes) line.next().say("soot");
        if (!some) line.next().say(word(test.soot)).say(" soot");
    }
    line.end();
}

void write_pool(SheetWriter& sheet, const TestPlan& test) {
    if (!test.pool_mm) return;
    sheet.say("- Melt pool ").length(*test.pool_mm);
    if (test.pool_minutes) sheet.say(" after ").duration(*test.pool_minutes);
    if (test.wall_mm) {
        if (*test.wall_mm > 0) {
            sheet.say(": ").length(*test.wall_mm).say(" of wax left all round at the wall");
        } else {
            sheet.say(": it reached the wall");
        }
    }
    sheet.say("\n");
}

} // namespace

void write_test_burn(SheetWriter& sheet, const RecipePlan& recipe) {
    if (!recipe.test) {
        sheet.say("- Test burns so far: **none**. Burn some to the end before you sell any.\n");
        return;
    }
    const TestPlan& test = *recipe.test;
    write_verdict(sheet, test);
    write_seen(sheet, test);
    write_pool(sheet, test);
    write_list(sheet, "- **Other than today's candle:** ", test.other);
    write_list(sheet, "- Not written down in that test, and taken to be as today: ", test.assumed);
    write_list(sheet, "- Not looked at in that test: ", test.missing);
    if (!test.to_end || !test.other.empty()) {
        sheet.say("- **Still missing:** a test of today's candle that burned down to ");
        sheet.length(test.stop_mm).say(" of wax\n");
    }
    if (!test.notes.empty()) sheet.say("- Noted then: ").user(test.notes).say("\n");
}

} // namespace waxwright
