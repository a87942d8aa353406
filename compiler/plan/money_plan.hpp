// The part of a sheet that is about money and stock, as data. Masses in g, money in a currency's
// major unit, exact: it is rounded where it is printed.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "units/money.hpp"

namespace waxwright {

struct PackPlan {
    std::int64_t count;
    std::string size; // "10 lb", "24"
    double price;     // of one
};

/// A thing that is used, for the whole sheet.
struct SupplyPlan {
    std::string name;
    bool pieces = false;
    bool kept = false;      // a leftover: it comes from no shop, and costs nothing
    bool in_pounds = false; // it is sold, or was written, in ounces or pounds
    double need = 0;        // g or pieces, as the next three
    double have = 0;
    double missing = 0;
    double left_over = 0; // of what is at hand and bought
    bool have_unknown = false;
    bool on_offer = false;           // there are packs that cover it
    bool proven = true;              // every choice of packs has been looked at
    std::vector<PackPlan> priced_by; // the cheapest cover of the need
    std::vector<PackPlan> packs;     // of what is missing
    std::optional<double> to_buy;    // what these cost
    std::optional<double> cost;      // of what is used, pro rata
};

/// What one candle costs; of a batch's recipe, or on the average of all.
struct CandlePlan {
    std::string title;
    double materials = 0;
    std::optional<double> scent_gram; // what a gram of the scent costs; nothing without scent
    std::optional<double> labour, overhead, fees, left;
    double in_all = 0; // of all these but what is left
};

struct LotsPlan {
    std::string name;
    std::vector<std::string> lots; // of `have … lot`
    bool some_without = false;     // some is at hand whose lot is unsaid
};

struct MoneyPlan {
    Currency currency = no_money;
    std::vector<SupplyPlan> supplies; // waxes, additives, oils, wicks, vessels, extras
    bool any_stock = false;
    // Only where something that is used has a price:
    bool priced = false;
    bool so_far = false; // something else has none: the figures are what is known of
    double batch = 0;
    double each = 0;
    double to_buy = 0;
    std::vector<CandlePlan> candles; // one for each recipe, and one for all where there are several
    std::optional<double> price;     // what one is sold for
    std::vector<LotsPlan> lots;      // materials of which more than one lot may be weighed out
};

} // namespace waxwright
