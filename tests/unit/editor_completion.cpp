// What is offered at the cursor, and what the text is once it is taken.
#include <doctest/doctest.h>

#include <algorithm>

#include "editor_desk.hpp"

namespace waxwright {

using test::EditorDesk;
using test::Marked;

namespace {

Json able(bool snippets) {
    return {{"textDocument",
             {{"hover", {{"contentFormat", {"markdown"}}}},
              {"completion", {{"completionItem", {{"snippetSupport", snippets}}}}}}}};
}

/// The items at the mark, in the order in which a client shows them.
struct Offered {
    explicit Offered(std::string_view marked, bool snippets = false, EditorDesk::Disk disk = {}) {
        EditorDesk desk(std::move(disk), able(snippets));
        text = Marked(marked).text;
        Json list = desk.ask_at_mark("textDocument/completion", marked);
        again = list["isIncomplete"];
        items = list["items"].get<std::vector<Json>>();
        std::ranges::stable_sort(
            items, {}, [](const Json& each) { return each["sortText"].get<std::string>(); });
    }
    const Json* find(std::string_view label) const {
        const auto found =
            std::ranges::find_if(items, [&](const Json& each) { return each["label"] == label; });
        return found == items.end() ? nullptr : &*found;
    }
    bool has(std::string_view label) const { return find(label) != nullptr; }
    std::size_t place(std::string_view label) const {
        const Json* found = find(label);
        REQUIRE_MESSAGE(found != nullptr, label);
        return static_cast<std::size_t>(found - items.data());
    }
    /// The text once the item is taken.
    std::string with(std::string_view label) const {
        const Json& item = items[place(label)];
        Json edits = Json::array({item["textEdit"]});
        if (item.contains("additionalTextEdits")) {
            for (const Json& edit : item["additionalTextEdits"])
                edits.push_back(edit);
        }
        return EditorDesk::with_edits(text, edits);
    }
    std::string put(std::string_view label) const {
        return items[place(label)]["textEdit"]["newText"];
    }
    std::string labels() const {
        std::string all;
        for (const Json& each : items)
            all += each["label"].get<std::string>() + "; ";
        return all;
    }

    std::string text;
    std::vector<Json> items;
    bool again = false;
};

/// A recipe with a line of its own among the properties.
std::string recipe(const std::string& line) {
    return "use waxes, oils, vessels, wicks\n\nlet house = 6% of wax\n\nrecipe tins {\n"
           "  makes: 6 tin-8oz\n  " +
           line + "\n  scent: lavender\n  steps {\n    melt to 75 °C\n  }\n}\n";
}
std::string steps(const std::string& before, const std::string& after = "") {
    return "use waxes, oils, additives, vessels\n\nrecipe tins {\n  makes: 6 tin-8oz\n"
           "  wax: soy\n  additives: 3% stearic-acid\n  steps {\n" +
           before + after + "\n  }\n}\n";
}

} // namespace

TEST_CASE("a substance's figures: the class or the hazard behind each") {
    CHECK(Offered("substance a {\n  specific-limit: 5% |\n}\n").has("eye-irrit-2"));
    CHECK(Offered("substance a {\n  specific-limit: 1% skin-sens-1, 5% |\n}\n").has("eye-irrit-2"));
    const Offered factors("substance a {\n  m-factor: 10 |\n}\n");
    CHECK(factors.has("acute"));
    CHECK(factors.has("chronic"));
    CHECK(Offered("substance a {\n  adds-up: |\n}\n").has("no"));
}

TEST_CASE("at the top of a file: statements and kinds of blocks") {
    const Offered fresh("|");
    for (const std::string_view kind : block_kind_words())
        CHECK(fresh.has(kind));
    CHECK(fresh.has("language 1"));
    CHECK(fresh.has("use"));
    CHECK(fresh.has("let"));
    const Offered later("language 1\ncurrency CAD\n\n|");
    CHECK_FALSE(later.has("language 1"));
    CHECK_FALSE(later.has("currency"));
    CHECK(Offered("re|").with("recipe") == "recipe ");
    const Offered filled("wa|", true);
    CHECK(filled.put("wax") ==
          "wax ${1:my-wax} {\n  density: $2\n  melts: $3\n  max-load: $4\n  ceiling: $5\n}");
    CHECK(filled.items[filled.place("wax")]["insertTextFormat"] == 2);
    CHECK(filled.items[filled.place("wax")]["insertTextMode"] == 1);
    CHECK(Offered("currency |").has("NZD"));
}

TEST_CASE("use: modules that are not used yet, and files that are known") {
    const Offered modules("use waxes, |");
    CHECK_FALSE(modules.has("waxes"));
    CHECK(modules.with("oils") == "use waxes, oils");
    CHECK_FALSE(Offered("use waxes\nuse |").has("waxes"));
    CHECK(Offered("use waxes |").items.empty());
    EditorDesk desk;
    desk.open("/desk/shed/bench.candle", "scale small { reads: 1 g }\n");
    const Json inside = desk.ask_at_mark("textDocument/completion", "use \"sh|\n")["items"];
    REQUIRE(inside.size() == 1);
    CHECK(EditorDesk::with_edits("use \"sh\n", Json::array({inside[0]["textEdit"]})) ==
          "use \"shed/bench.candle\"\n");
    const Json whole = desk.ask_at_mark("textDocument/completion", "use |\n")["items"];
    CHECK(std::ranges::any_of(
        whole, [](const Json& each) { return each["label"] == "\"shed/bench.candle\""; }));
}

TEST_CASE("a new name is the maker's own; behind like stand names of that kind") {
    CHECK(Offered("use waxes\nwax |").items.empty());
    CHECK(Offered("use waxes\nwax my-soy |").labels() == "like; ");
    const Offered like("use waxes, oils\nwax my-soy like so|");
    CHECK(like.with("soy") == "use waxes, oils\nwax my-soy like soy");
    CHECK_FALSE(like.has("lavender"));
    CHECK_FALSE(like.has("my-soy"));
    // even where the block above was never closed
    CHECK(Offered("use waxes\nwax a {\n  melts: 50 °C\nwax my-soy like |").has("soy"));
}

TEST_CASE("in a block: the properties that are missing, needed ones first") {
    const Offered items(recipe("|"));
    CHECK(items.place("wax") == 0);
    CHECK_FALSE(items.has("makes"));
    CHECK_FALSE(items.has("scent")); // stands below the cursor
    CHECK_FALSE(items.has("steps"));
    CHECK_FALSE(items.has("pour"));
    CHECK_FALSE(items.has("sold")); // of what is bought only
    CHECK(items.place("wax") < items.place("load"));
    CHECK(items.with("wax") == recipe("wax: "));
    CHECK(items.find("wick")->at("documentation")["value"] ==
          "how many of which wick, in each vessel");
    CHECK(Offered(recipe("hea|dspace: 3 mm")).with("headspace") == recipe("headspace: 3 mm"));
    const Offered inherited("use waxes\nwax my-soy like soy {\n  |\n}\n");
    CHECK(inherited.place("sold") < inherited.place("melts"));
    CHECK(inherited.find("melts")->at("detail") == "taken over by like; melting point or range");
    CHECK(Offered("scale a { reads: 1 g, |").has("most"));
    CHECK(Offered("batch fair {\n  |\n}\n").has("pour"));
    CHECK(Offered("stock shelf {\n  |\n}\n").has("have"));
}

TEST_CASE("values: names of the kind that is wanted") {
    const Offered waxes(recipe("wax: so|"));
    CHECK(waxes.with("soy") == recipe("wax: soy"));
    CHECK_FALSE(waxes.has("lavender"));
    CHECK(
        waxes.find("soy")->at("detail").get<std::string>().starts_with("wax, max-load 10% of wax"));
    CHECK(waxes.find("soy")->contains("documentation"));
    CHECK(Offered(recipe("wick: 2 |")).has("cotton-braid-medium"));
    CHECK(Offered("use extras\nrecipe a {\n  extras: dust-cover + |\n}\n").has("care-card"));
    CHECK(Offered(recipe("wick: 2|")).items.empty());
    CHECK(Offered(recipe("wick: 2 cotton-braid-medium |")).items.empty());
    CHECK(Offered("use vessels\nvessel a like tin-8oz {\n  of: |\n}\n").labels() ==
          "glass; tin; ceramic; stone; wood; plastic; ");
    CHECK(Offered("maker us { sells-in: us, |").labels() == "eu; gb; ");
}

TEST_CASE("a name of a module that is not used brings the module along") {
    const Offered more(recipe("extras: |"));
    CHECK(more.with("gift-box").starts_with("use waxes, oils, vessels, wicks, extras\n"));
    CHECK(Offered("language 1\n\nscale s { reads: 1 g }\n\nrecipe a {\n  wax: |\n}\n")
              .with("soy")
              .starts_with("language 1\nuse waxes\n\nscale"));
    CHECK(Offered("recipe a {\n  wax: |\n}\n").with("soy") ==
          "use waxes\n\nrecipe a {\n  wax: soy\n}\n");
    CHECK(Offered("language 1|").items.empty());
    CHECK(Offered("use \"a.candle\"\nwax my like |", false).with("soy") ==
          "use \"a.candle\"\nuse waxes\nwax my like soy");
}

TEST_CASE("blends: amounts, then names not yet in the list, then the rest") {
    const Offered second(recipe("wax: 80% soy + |"));
    CHECK(second.has("rest coconut"));
    CHECK_FALSE(second.has("rest soy"));
    const Offered names(recipe("wax: 80% soy + 20% |"));
    CHECK(names.has("coconut"));
    CHECK_FALSE(names.has("soy"));
    CHECK(Offered(recipe("wax: 80% soy +\n    rest co|")).has("coconut"));
    CHECK(Offered(recipe("wax: 80 |")).labels() == "%; parts; part; ");
    CHECK(Offered(recipe("wax: 4 parts soy + 1 part coconut |")).labels() == "by volume; ");
    const Offered additives(recipe("additives: 3 |"));
    CHECK(additives.labels() == "%; ");
    CHECK(Offered("let herbs = 50% lavender + 50% rosemary\nuse oils\nrecipe a {\n  scent: |\n}\n")
              .has("herbs"));
}

TEST_CASE("figures: lets of the dimension, units behind a number") {
    CHECK(Offered(recipe("load: |")).labels() == "house; 6% of wax; 80 g per kg of wax; ");
    CHECK(Offered(recipe("load: 6 |")).labels() ==
          "% of wax; % of total; g per kg of wax; oz per lb of wax; ");
    CHECK(Offered(recipe("load: 6%|")).with("% of wax") == recipe("load: 6% of wax"));
    CHECK(Offered(recipe("load: 6% |")).labels() == "of wax; of total; ");
    CHECK(Offered(recipe("load: 6% of |")).labels() == "wax; total; ");
    CHECK(Offered(recipe("headspace: 12|")).items.empty());
    CHECK(Offered(recipe("headspace: 12 |")).labels() == "mm; cm; m; in; ft; ");
    CHECK(Offered("scale s { reads: 0.1 oz }\nwick w {\n  suits: 3 |\n}\n").labels() ==
          "in; ft; mm; cm; m; to; ");
    CHECK(Offered("wick w {\n  suits: 70 mm |\n}\n").labels() == "to; ");
    CHECK(Offered("oil o {\n  flash-point: 70 °|\n}\n").with("°C") ==
          "oil o {\n  flash-point: 70 °C\n}\n");
    CHECK(Offered("oil o {\n  flash-point: 70 °C |\n}\n").labels() == "closed cup; open cup; ");
    CHECK(Offered("pot p { cools: 75 °C to 60 °C over 21 |").has("min"));
    CHECK(Offered("vessel v { brimful: 318 |").has("g of water"));
    CHECK(Offered("batch b { labour: 3 h at 18 |").has("USD/h"));
    CHECK(Offered("let a = 6 |").has("% of wax"));
    CHECK(Offered("use oils\nlet a = 2 parts |").has("rosemary"));
    CHECK(Offered("let thumb = 12 mm\nrecipe a { headspace: |").labels() == "thumb; 15 mm; ");
    CHECK_FALSE(Offered("let thumb = 12 mm\nbatch a { room: |").has("thumb"));
}

TEST_CASE("steps: verbs in their order, and what stands behind them") {
    const Offered first(steps("    |"), true);
    CHECK(first.place("wipe vessels") < first.place("melt to 75 °C"));
    const Offered next(steps("    melt to 75 °C\n    off heat\n    add scent at 70 °C\n    |",
                             "\n    cure 14 days"),
                       true);
    CHECK(next.place("stir 2 min") == 0);
    CHECK(next.place("cool to 60 °C") < next.place("set wick"));
    CHECK(next.labels().ends_with("melt to 75 °C; "));
    CHECK(next.has("add stearic-acid at 75 °C, stir 2 min"));
    // Without places to fill in, what is shown is what is written.
    const Offered plain(steps("    melt to 75 °C\n    |"));
    CHECK(plain.put("pour at") == "pour at ");
    CHECK(plain.find("pour at")->at("detail").get<std::string>().ends_with("pour at 60 °C"));
    CHECK(Offered("recipe a {\n  st|\n").put("steps") == "steps {");
    const Offered places(steps("    second p|"), true);
    CHECK(places.put("second pour at 60 °C") == "second pour at ${1:60} °C");
    CHECK(places.with("second pour at 60 °C") == steps("    second pour at ${1:60} °C"));
    CHECK(Offered(steps("    melt to 170 °F\n    |"), true).put("cool to 135 °F") ==
          "cool to ${1:135} °F");
    CHECK(Offered(steps("    melt |")).labels() == "to; ");
    CHECK(Offered(steps("    melt to 75 |")).labels() == "°C; °F; ");
    CHECK(Offered(steps("    melt to 75 °C |")).labels() == "because; ");
    CHECK(Offered(steps("    add |")).place("stearic-acid") == 1);
    CHECK(Offered(steps("    add scent |")).labels() == "at; ");
    CHECK(Offered(steps("    add scent at 70 °C |")).place(", stir 2 min") == 0);
    CHECK(Offered(steps("    add scent at 70 °C, |")).labels() == "stir 2 min; ");
    CHECK(Offered(steps("    add scent at 70 °C, stir 2 |")).place("s") == 0);
    CHECK(Offered(steps("    trim wick to 6 |")).place("mm") == 0);
    CHECK(Offered(steps("    off heat |")).labels() == "because; ");
}

TEST_CASE("allow: first what was found here, then what else may be allowed") {
    std::string text = recipe("load: 9.5% of wax\n  wax: soy\n  allow |");
    const Offered rules(text, true);
    CHECK(rules.place("load-near-limit") < rules.place("near-ceiling"));
    CHECK(rules.put("load-near-limit") == "load-near-limit because \"$1\"");
    CHECK_FALSE(rules.has("load-over-limit"));
    CHECK_FALSE(rules.has("allow-unused"));
    CHECK(Offered(recipe("allow load-faint |")).labels() == "because; ");
}

TEST_CASE("what people of the trade write is offered in the language's words") {
    const Offered whole(steps("    remove from heat|"));
    CHECK(whole.with("off heat") == steps("    off heat"));
    CHECK(whole.find("off heat")->at("detail") == "for `remove from heat`");
    CHECK(whole.find("off heat")->at("filterText") == "remove from heat");
    CHECK(whole.place("off heat") == 0);
    CHECK(whole.again);
    const Offered begun(steps("    take it of|"));
    CHECK(begun.with("off heat") == steps("    off heat"));
    CHECK(begun.find("off heat")->at("filterText") == "take it of");
    const Offered hole(steps("    let it cool |"), true);
    CHECK(hole.put("cool to …") == "cool to $1");
    CHECK(hole.find("cool to …")->at("detail") == "for `let it cool to …`");
    CHECK(Offered(steps("    let it cool |")).put("cool to …") == "cool to ");
    CHECK(Offered("pot p {\n  heated: double boi|\n}\n").with("heated: water-bath") ==
          "pot p {\n  heated: water-bath\n}\n");
    CHECK_FALSE(Offered("pot p {\n  remove from h|\n}\n").has("off heat")); // no steps there
    CHECK(Offered("use waxes oils|").with("use waxes, oils") == "use waxes, oils");
    CHECK_FALSE(Offered(steps("    melt to 75 °C|")).again);
    CHECK(Offered(steps("    pour a|")).has("second pour at …")); // `pour again at …`
    CHECK_FALSE(Offered(steps("    pour at|")).again);
}

TEST_CASE("what takes away what is half typed, or makes a note of it, is not offered") {
    CHECK_FALSE(Offered(steps("    mel|")).has("note \"mel\""));
    const Offered meant(steps("    sti|\n    sti"), true); // verbs before what it may come to
    CHECK(meant.items.back()["detail"].get<std::string>().starts_with("for `"));
    CHECK(meant.place("stir 2 min") < meant.items.size() - 1);
    const Offered half(steps("    remove from h|"));
    CHECK(half.place("off heat") < half.place("note \"remove from h\""));
    CHECK_FALSE(Offered(steps("    add scent at 70 °C, st|")).has("add scent at 70 °C"));
    CHECK(Offered(steps("    add scent at 70 °C, st|")).place("stir 2 min") == 0);
    CHECK(Offered("use waxes, |").has("oils"));
    CHECK_FALSE(Offered("use waxes, |").has("use waxes"));
}

TEST_CASE("words beside what is offered: like, and the bores of a wick") {
    CHECK(Offered("use waxes\nwax my-soy |").find("like")->at("detail") ==
          "takes over what another wax says; write only what differs");
    const Offered wicks("use wicks\nwick mine like rush { suits: 60 to 70 mm }\nwick rush {\n}\n"
                        "recipe a {\n  wick: 1 |\n}\n");
    CHECK(wicks.find("mine")->at("detail") == "wick, suits 60 to 70 mm");
    CHECK(wicks.find("paper-core")->at("detail") ==
          "wick; its supplier's chart says which bores it suits");
}

TEST_CASE("in a comment and in a text nothing is offered") {
    CHECK(Offered("# use |").items.empty());
    CHECK(Offered(recipe("title: \"Lo|\"")).items.empty());
    CHECK(Offered(recipe("title: \"Lo|")).items.empty());
    CHECK(Offered(recipe("wax: soy # and |")).items.empty());
    CHECK(Offered(recipe("title: |"), true).put("\"…\"") == "\"$1\"");
}

} // namespace waxwright
