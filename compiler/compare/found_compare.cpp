#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "compare/compare.hpp"

namespace waxwright {

namespace {

std::string whom(const Model& model, const Subject& subject) {
    if (subject.batch == nobody) return std::string(model.name(subject.recipe));
    if (subject.recipe == nobody) return std::string(model.name(subject.batch));
    return fmt::format("{} in {}", model.name(subject.recipe), model.name(subject.batch));
}

void add(std::vector<FoundWords>& found, const Finding& finding, const std::string& message,
         const Model& model, const std::vector<Subject>& subjects) {
    FoundWords words{finding.rule, finding.severity, message, finding.because, {}};
    if (subjects.empty()) found.push_back(words);
    for (const Subject& subject : subjects) {
        words.whom = whom(model, subject);
        found.push_back(words);
    }
}

void replace_all(std::string& text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

/// As it would be told by the names of today.
FoundWords renamed_in(FoundWords words, const std::vector<Renaming>& renamed) {
    for (const auto& [before, after] : renamed) {
        replace_all(words.message, fmt::format("`{}`", before), fmt::format("`{}`", after));
        if (words.whom == before) words.whom = after;
        if (words.whom.starts_with(before + " in ")) {
            words.whom.replace(0, before.size(), after);
        }
        if (words.whom.ends_with(" in " + before)) {
            words.whom.replace(words.whom.size() - before.size(), before.size(), after);
        }
    }
    return words;
}

/// What is the same of several recipes becomes one, where the first of them stands.
class Joined {
public:
    void add(std::optional<FoundWords> before, std::optional<FoundWords> after) {
        const std::string of = after ? after->whom : before->whom;
        if (before) before->whom.clear();
        if (after) after->whom.clear();
        const auto [place, is_new] = places_.try_emplace({before, after}, changes.size());
        if (is_new) changes.push_back({std::move(before), std::move(after), {}});
        // What is so of a recipe is so in each batch that pours it.
        const std::string recipe = of.substr(0, of.find(" in "));
        std::vector<std::string>& whom = changes[place->second].whom;
        const bool told = std::find(whom.begin(), whom.end(), recipe) != whom.end();
        if (!of.empty() && !told) whom.push_back(of);
    }

    std::vector<FoundChange> changes;

private:
    std::map<std::pair<std::optional<FoundWords>, std::optional<FoundWords>>, std::size_t> places_;
};

} // namespace

std::vector<FoundWords> found_words(const Findings& findings, const Model& model) {
    std::vector<FoundWords> found;
    for (const Finding& finding : findings.all()) {
        add(found, finding, finding.message, model, finding.subjects);
        for (const Also& also : finding.also)
            add(found, finding, also.message, model, also.subjects);
    }
    return found;
}

std::vector<FoundChange> compare_found(const std::vector<FoundWords>& before,
                                       const std::vector<FoundWords>& after,
                                       const std::vector<Renaming>& renamed) {
    std::vector<FoundWords> old_words;
    for (const FoundWords& each : before)
        old_words.push_back(renamed_in(each, renamed));
    std::multimap<FoundWords, std::size_t> alike;
    for (std::size_t i = 0; i < old_words.size(); ++i)
        alike.emplace(old_words[i], i);
    std::vector<const FoundWords*> appeared;
    for (const FoundWords& each : after) {
        const auto same = alike.find(each);
        if (same == alike.end()) {
            appeared.push_back(&each);
        } else {
            alike.erase(same);
        }
    }
    std::vector<bool> went(old_words.size(), false);
    for (const auto& [words, index] : alike)
        went[index] = true;
    std::multimap<std::pair<Rule, std::string>, std::size_t> reworded; // in their order
    for (std::size_t i = 0; i < old_words.size(); ++i) {
        if (went[i]) reworded.emplace(std::pair(old_words[i].rule, old_words[i].whom), i);
    }

    Joined joined;
    for (const FoundWords* each : appeared) {
        const auto old = reworded.find({each->rule, each->whom});
        if (old == reworded.end()) {
            joined.add(std::nullopt, *each);
            continue;
        }
        joined.add(old_words[old->second], *each);
        went[old->second] = false;
        reworded.erase(old);
    }
    for (std::size_t i = 0; i < old_words.size(); ++i) {
        if (went[i]) joined.add(old_words[i], std::nullopt);
    }
    return std::move(joined.changes);
}

} // namespace waxwright
