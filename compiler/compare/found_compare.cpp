#include <map>
#include <set>
#include <string_view>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "compare/compare.hpp"

namespace waxwright {

namespace {

constexpr std::string_view in = " in "; // between a recipe and its batch

std::string whom(const Model& model, const Subject& subject) {
    if (subject.batch == nobody) return std::string(model.name(subject.recipe));
    if (subject.recipe == nobody) return std::string(model.name(subject.batch));
    return fmt::format("{}{}{}", model.name(subject.recipe), in, model.name(subject.batch));
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

using Names = std::unordered_map<std::string, std::string>; // before -> after

std::string name_after(const Names& renamed, const std::string& name) {
    const auto found = renamed.find(name);
    return found == renamed.end() ? name : found->second;
}

/// A message with the names in its backticks as they are now.
std::string message_after(const Names& renamed, const std::string& message) {
    std::string text;
    std::size_t done = 0;
    for (;;) {
        const std::size_t open = message.find('`', done);
        const std::size_t close = open == std::string::npos ? open : message.find('`', open + 1);
        if (close == std::string::npos) return text + message.substr(done);
        text += message.substr(done, open + 1 - done);
        text += name_after(renamed, message.substr(open + 1, close - open - 1));
        text += '`';
        done = close + 1;
    }
}

/// As it would be told by the names of today.
FoundWords renamed_in(FoundWords words, const Names& renamed) {
    if (renamed.empty()) return words;
    words.message = message_after(renamed, words.message);
    const std::size_t between = words.whom.find(in);
    if (between == std::string::npos) {
        words.whom = name_after(renamed, words.whom);
    } else {
        words.whom = fmt::format("{}{}{}", name_after(renamed, words.whom.substr(0, between)), in,
                                 name_after(renamed, words.whom.substr(between + in.size())));
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
        const bool told = of.empty() || told_.contains({place->second, of.substr(0, of.find(in))});
        if (told || !told_.emplace(place->second, of).second) return;
        changes[place->second].whom.push_back(of);
    }

    std::vector<FoundChange> changes;

private:
    std::map<std::pair<std::optional<FoundWords>, std::optional<FoundWords>>, std::size_t> places_;
    std::set<std::pair<std::size_t, std::string>> told_; // a change, and of whom
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
    Names names;
    for (const Renaming& each : renamed)
        names.emplace(each.before, each.after);
    std::vector<FoundWords> old_words;
    old_words.reserve(before.size());
    for (const FoundWords& each : before)
        old_words.push_back(renamed_in(each, names));
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
