// What it costs and what to buy: on the sheet with --with, and as a list of its own.
#include "emit/markdown_money.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "emit/markdown_parts.hpp"
#include "units/figures.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// Pounds and ounces to a tenth of an ounce.
std::string pounds(double grams) {
    constexpr double ounce = 28.349523125;
    const double ounces = std::round(grams / ounce * 10) / 10;
    const double whole = std::floor(ounces / 16);
    const double rest = ounces - whole * 16;
    if (whole == 0) return show_number(ounces, 1) + " oz";
    return show_number(whole, 0) + " lb" +
           (rest < 0.05 ? std::string() : " " + show_number(rest, 1) + " oz");
}

/// "2 × 10 kg at 64.00", packs of one kind after the other.
std::string packs_words(const std::vector<PackPlan>& packs, Currency currency) {
    std::string text;
    for (const PackPlan& pack : packs) {
        if (!text.empty()) text += " + ";
        text += show_number(static_cast<double>(pack.count), 0) + " × " + pack.size + " at " +
                show_money(pack.price, currency);
    }
    return text;
}

/// A price of so little that a currency's own decimals don't show it: three more of them.
std::string fine_money(double amount, Currency currency) {
    const int decimals = all_currencies()[currency].minor + 3;
    return figures(amount, decimals, Zeros::kept) + " " + std::string(code_of(currency));
}

class MoneyWriter {
public:
    explicit MoneyWriter(SheetWriter& sheet) : sheet_(sheet), money_(sheet.plan.money) {}

    void write_cost();
    void write_buy();

private:
    void write_whats_in();
    void write_supplies();
    void write_candles();
    void write_candle(const CandlePlan& candle);
    void write_missing_prices();
    void write_to_buy(const SupplyPlan& supply);
    void write_covered();
    bool short_of_leftovers() const;
    void write_leftovers();
    void write_total();
    void write_doubts();
    /// g to a tenth, so that what the finest kitchen scale shows is there, or pounds for whoever
    /// weighs in them; pieces as such.
    std::string amount(double amount, const SupplyPlan& supply) const {
        if (supply.pieces) return show_number(amount, 0);
        if (supply.in_pounds || sheet_.us_units) return pounds(amount);
        return show_number(amount, 1) + " g";
    }
    /// What costs less than the smallest coin isn't free.
    void cash(double amount) {
        const double coin = std::pow(10.0, -all_currencies()[money_.currency].minor);
        const bool some = amount > 0 && amount < coin / 2;
        sheet_.say(some ? "under " : "").say(show_money(some ? coin : amount, money_.currency));
    }

    SheetWriter& sheet_;
    const MoneyPlan& money_;
};

/// Which of a candle's costs the figures have in them, and which they have not.
void MoneyWriter::write_whats_in() {
    const CandlePlan& any = money_.candles.front();
    if (!any.labour && !any.overhead && !any.fees) {
        sheet_.say("Materials only: these figures have no time, stall, fees, tax, tests or "
                   "scrapped jars in them.\n\n");
        return;
    }
    sheet_.say("In these figures: materials");
    if (any.labour) sheet_.say(", time");
    if (any.overhead) sheet_.say(", overhead (stall, rent, power)");
    if (any.fees) sheet_.say(", fees on the price");
    sheet_.say(". Not in them: ");
    if (!any.labour) sheet_.say("time, ");
    if (!any.overhead) sheet_.say("stall, rent, power, ");
    if (!any.fees) sheet_.say("fees, ");
    sheet_.say("tax, tests, scrapped jars.\n\n");
}

void MoneyWriter::write_supplies() {
    sheet_.say("| used | of | priced by | cost |");
    sheet_.say(money_.priced ? " share |\n|---:|---|---|---:|---:|\n" : "\n|---:|---|---|---:|\n");
    for (const SupplyPlan& supply : money_.supplies) {
        sheet_.say("| ").say(amount(supply.need, supply)).say(" | ").user(supply.name);
        sheet_.say(" | ");
        if (supply.kept) sheet_.say("leftovers, counted at no cost");
        sheet_.say(packs_words(supply.priced_by, money_.currency)).say(" | ");
        if (supply.cost) {
            cash(*supply.cost);
        } else {
            sheet_.say("no price");
        }
        sheet_.say(" |");
        if (money_.priced) {
            sheet_.say(" ");
            if (supply.cost && money_.batch > 0) sheet_.percent(*supply.cost / money_.batch);
            sheet_.say(" |");
        }
        sheet_.say("\n");
    }
    if (!money_.priced) return;
    sheet_.say(money_.so_far ? "| | so far | | **" : "| | in all | | **");
    cash(money_.batch);
    sheet_.say("** | |\n");
}

void MoneyWriter::write_candle(const CandlePlan& candle) {
    sheet_.say("| ").user(candle.title).say(" | ");
    cash(candle.materials);
    sheet_.say(" |");
    for (const auto& cost : {candle.labour, candle.overhead, candle.fees}) {
        if (!cost) continue;
        sheet_.say(" ");
        cash(*cost);
        sheet_.say(" |");
    }
    sheet_.say(" **");
    cash(candle.in_all);
    sheet_.say("** |");
    if (candle.left) {
        sheet_.say(" ");
        cash(*candle.left);
        sheet_.say(" |");
    }
    sheet_.say(" ");
    if (candle.scent_gram) sheet_.say(fine_money(*candle.scent_gram, money_.currency));
    sheet_.say(" |\n");
}

void MoneyWriter::write_candles() {
    const CandlePlan& any = money_.candles.front();
    sheet_.say("\n| one candle | materials |");
    std::string rule = "|---|---:|";
    const auto column = [&](bool there, std::string_view words) {
        if (!there) return;
        sheet_.say(" ").say(words).say(" |");
        rule += "---:|";
    };
    column(any.labour.has_value(), "time");
    column(any.overhead.has_value(), "overhead");
    column(any.fees.has_value(), "fees");
    column(true, money_.so_far ? "so far" : "in all");
    if (any.left) {
        column(true, (money_.so_far ? "at most left of " : "left of ") +
                         show_money(*money_.price, money_.currency));
    }
    column(true, "a gram of its scent");
    sheet_.say("\n").say(rule).say("\n");
    for (const CandlePlan& candle : money_.candles)
        write_candle(candle);
    sheet_.say("\nEach figure is rounded on its own.\n");
}

void MoneyWriter::write_missing_prices() {
    sheet_.say("\n**So far:** no price is known for ");
    bool first = true;
    for (const SupplyPlan& supply : money_.supplies) {
        if (supply.cost) continue;
        if (!first) sheet_.say(", ");
        sheet_.user(supply.name);
        first = false;
    }
    sheet_.say(", so it is not in these figures.\n");
}

void MoneyWriter::write_cost() {
    sheet_.heading("What it costs");
    if (money_.currency == no_money) {
        sheet_.say("Nothing used here has a price.\n");
        return;
    }
    if (money_.priced) write_whats_in();
    write_supplies();
    if (money_.priced) write_candles();
    if (money_.so_far) write_missing_prices();
}

void MoneyWriter::write_to_buy(const SupplyPlan& supply) {
    sheet_.say("| ");
    if (supply.on_offer) {
        sheet_.say(packs_words(supply.packs, money_.currency));
    } else {
        sheet_.say("no pack on offer");
    }
    sheet_.say(" | ").user(supply.name).say(" | ").say(amount(supply.need, supply));
    sheet_.say(" | ").say(amount(supply.have, supply));
    if (supply.have > 0) sheet_.say(", short by ").say(amount(supply.missing, supply));
    sheet_.say(" | ");
    if (supply.to_buy) cash(*supply.to_buy);
    sheet_.say(" | ");
    if (supply.to_buy) sheet_.say(amount(supply.left_over, supply));
    sheet_.say(" |\n");
}

/// What need not be bought.
void MoneyWriter::write_covered() {
    bool any = false;
    for (const SupplyPlan& supply : money_.supplies) {
        if (supply.missing > 0 || !(supply.need > 0)) continue;
        sheet_.say(any ? "; " : "\nEnough at hand: ").user(supply.name).say(" (");
        sheet_.say(amount(supply.need, supply)).say(" needed, ");
        sheet_.say(amount(supply.have, supply)).say(" there)");
        any = true;
    }
    if (any) sheet_.say(".\n");
}

bool MoneyWriter::short_of_leftovers() const {
    return std::any_of(money_.supplies.begin(), money_.supplies.end(),
                       [](const SupplyPlan& supply) { return supply.kept && supply.missing > 0; });
}

/// No shop has them: what is short is made up for by fewer candles, or by a smaller share.
void MoneyWriter::write_leftovers() {
    if (!money_.any_stock) return; // said below
    for (const SupplyPlan& supply : money_.supplies) {
        if (!supply.kept || !(supply.missing > 0)) continue;
        sheet_.say("\n**").user(supply.name).say("**: ").say(amount(supply.need, supply));
        sheet_.say(" needed, ").say(amount(supply.have, supply)).say(" at hand, ");
        sheet_.say(amount(supply.missing, supply));
        sheet_.say(" short, and no shop sells leftovers: make fewer, or write a smaller share.\n");
    }
}

void MoneyWriter::write_total() {
    double total = 0;
    bool any = false;
    bool whole = true;
    for (const SupplyPlan& supply : money_.supplies) {
        if (!(supply.missing > 0) || supply.kept) continue;
        any = any || supply.to_buy;
        whole = whole && supply.to_buy;
        total += supply.to_buy.value_or(0);
    }
    if (!any) return;
    sheet_.say("\nTo pay: **");
    cash(total);
    sheet_.say(whole ? "**.\n" : "**, and whatever has no pack on offer.\n");
}

void MoneyWriter::write_doubts() {
    if (!money_.any_stock) {
        sheet_.say("\nNo `stock` says what you have: this list is for an empty shelf.\n");
    }
    for (const SupplyPlan& supply : money_.supplies) {
        if (supply.have_unknown) {
            sheet_.say("\nSome ")
                .user(supply.name)
                .say(" is in stock by volume and can't be counted: its density is unknown.\n");
        }
        if (!supply.proven) {
            sheet_.say("\nOf ")
                .user(supply.name)
                .say(" not every choice of packs was tried: there may be a cheaper one.\n");
        }
    }
}

void MoneyWriter::write_buy() {
    sheet_.heading("What to buy");
    bool any = false;
    for (const SupplyPlan& supply : money_.supplies) {
        if (!(supply.missing > 0) || supply.kept) continue;
        if (!any) {
            sheet_.say("| buy | of | needed | at hand | to pay | left over |\n");
            sheet_.say("|---|---|---:|---:|---:|---:|\n");
        }
        write_to_buy(supply);
        any = true;
    }
    if (!any) sheet_.say(short_of_leftovers() ? "Nothing.\n" : "Nothing: all of it is at hand.\n");
    write_leftovers();
    write_total();
    write_covered();
    write_doubts();
}

} // namespace

void write_cost(SheetWriter& sheet) {
    MoneyWriter(sheet).write_cost();
}

void write_buy(SheetWriter& sheet) {
    MoneyWriter(sheet).write_buy();
}

std::string markdown_buy(const Plan& plan) {
    SheetWriter sheet(plan, plan.us_units);
    sheet.say("# To buy for ").user(plan.title).say("\n\nFor ").number(plan.count);
    sheet.say(plan.count == 1 ? " vessel" : " vessels").say(".\n");
    write_buy(sheet);
    write_cost(sheet);
    return sheet.take();
}

void write_lots(SheetWriter& sheet) {
    for (const LotsPlan& lots : sheet.plan.money.lots) {
        sheet.say("\nLots of ").user(lots.name).say(" at hand: ");
        for (std::size_t i = 0; i < lots.lots.size(); ++i)
            sheet.say(i > 0 ? ", " : "").user(lots.lots[i]);
        if (lots.some_without) sheet.say(", and some whose lot is unsaid");
        sheet.say(". Write down which you weigh from.\n");
    }
}

} // namespace waxwright
