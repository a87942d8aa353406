#include "reckon/label/supplier_texts.hpp"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "reckon/label/sums.hpp"

namespace waxwright {

namespace {

std::string upper(std::string_view text) {
    std::string result(text);
    std::ranges::transform(result, result.begin(),
                           [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return result;
}

bool is_code(std::string_view word) {
    const bool begins = word.starts_with('H') || word.starts_with('P') || word.starts_with("EUH");
    return begins && word.size() >= 4 &&
           std::ranges::any_of(word, [](unsigned char c) { return std::isdigit(c) != 0; });
}

/// "GHS07", and what is written like it.
bool is_pictogram(std::string_view text) {
    return text.size() > 3 && text.starts_with("GHS") &&
           std::ranges::all_of(text.substr(3), [](unsigned char c) { return std::isdigit(c); });
}

void put_pictogram(std::string_view text, SupplierTexts& into) {
    if (text.size() == 5 && text[3] == '0' && text[4] != '0')
        into.pictograms.push_back(text[4] - '0');
    else
        into.faults.push_back(
            fmt::format("`{}` is no pictogram: they go from GHS01 to GHS09", text));
}

void put_signal(const std::string& word, SupplierTexts& into) {
    if (!into.signal.empty() && into.signal != word) {
        into.faults.emplace_back("there are two signal words, and the graver stands alone");
        into.signal = "DANGER";
        return;
    }
    into.signal = word;
}

void put_sentence(std::string_view text, SupplierTexts& into) {
    const std::size_t blank = std::min(text.find(' '), text.size());
    const std::string_view first = text.substr(0, blank);
    const std::string_view rest = blank < text.size() ? text.substr(blank + 1) : "";
    SupplierSentence line{std::string(is_code(first) ? first : ""),
                          std::string(is_code(first) ? rest : text)};
    (line.code.starts_with('P') ? into.precautions : into.hazards).push_back(std::move(line));
}

void put_text(std::string_view text, SupplierTexts& into) {
    const std::string word = upper(text);
    if (text.find_first_not_of(" \t\n") == std::string_view::npos)
        into.faults.emplace_back("one of its texts is empty");
    else if (word == "NONE")
        into.faults.emplace_back("`none` stands beside other texts");
    else if (is_pictogram(text))
        put_pictogram(text, into);
    else if (word == "WARNING" || word == "DANGER")
        put_signal(word, into);
    else
        put_sentence(text, into);
}

/// "H361" in "H361d" and "H302+H332", and the other way round in "H335 or H336".
bool holds(std::string_view one, std::string_view other) {
    return one.find(other) != std::string_view::npos || other.find(one) != std::string_view::npos;
}

/// "H317" by its code, or by its words where a text has no code.
bool says(const SupplierTexts& said, std::string_view code, std::string_view words) {
    const std::string wanted = upper(words.substr(0, words.find('.')));
    return std::ranges::any_of(said.hazards, [&](const SupplierSentence& line) {
        return line.code.empty() ? upper(line.text).find(wanted) != std::string::npos
                                 : holds(line.code, code);
    });
}

bool says(const SupplierTexts& said, Statement statement) {
    return says(said, code(statement), text(statement));
}

/// By the table of tests, which goes from the gravest to the mildest of each kind.
bool says_graver(const SupplierTexts& said, Statement statement) {
    const auto tests = hazard_tests();
    for (const HazardTest& mild : tests) {
        if (facts(mild.gives).statement != statement) continue;
        for (const HazardTest& grave : tests) {
            if (&grave == &mild) break;
            if (grave.group == mild.group && says(said, facts(grave.gives).statement)) return true;
        }
    }
    return false;
}

} // namespace

SupplierTexts read_supplier(std::span<const std::string_view> texts) {
    SupplierTexts result;
    result.none = texts.size() == 1 && upper(texts[0]) == "NONE";
    if (result.none) return result;
    for (const std::string_view text : texts)
        put_text(text, result);
    std::ranges::sort(result.pictograms);
    return result;
}

std::vector<std::string_view> not_said(const Classification& classified,
                                       const SupplierTexts& said) {
    std::vector<std::string_view> result;
    for (const Statement one : classified.statements)
        if (!says(said, one) && !says_graver(said, one)) result.push_back(code(one));
    const bool allergic = says(said, Statement::H317) || says(said, Statement::H334) ||
                          says(said, "EUH208", "May produce an allergic reaction");
    if (!classified.sensitisers.empty() && !allergic) result.emplace_back("EUH208");
    return result;
}

bool is_for_health(const SupplierTexts& said) {
    if (std::ranges::any_of(said.hazards, [](const SupplierSentence& line) {
            return line.code.starts_with("H2") || line.code.starts_with("H3");
        }))
        return true;
    for (std::size_t i = 0; i < hazard_class_words().size(); ++i) {
        const ClassFacts& of = facts(static_cast<HazardClass>(i));
        if (of.part != HazardPart::environment && says(said, of.statement)) return true;
    }
    return false;
}

} // namespace waxwright
