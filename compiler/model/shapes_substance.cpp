// Shapes of what a substance says of itself: its CAS number, its classes of hazard.
#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "findings/nearest.hpp"
#include "model/cas.hpp"
#include "model/names.hpp"
#include "model/value_reader.hpp"

namespace waxwright {

namespace {

constexpr std::string_view no_hazard = "none";
constexpr const char* copy_it =
    "write it as its safety data sheet abbreviates it, in small letters with hyphens: "
    "`Skin Sens. 1B` is skin-sens-1b; and `hazards: none` where its supplier gives none";

/// The classes that begin with `text` and say more: of `acute-tox-4` the three ways into a body.
std::vector<std::string_view> said_further(std::string_view text) {
    std::vector<std::string_view> found;
    for (const std::string_view word : hazard_class_words()) {
        const bool further = word.size() > text.size() + 1 && word.substr(0, text.size()) == text &&
                             word[text.size()] == '-';
        if (further) found.push_back(word);
    }
    return found;
}

} // namespace

std::optional<HazardClass> ValueReader::read_hazard(At phrase) {
    const At operand{phrase.file, children(phrase)[0]};
    if (children(phrase).size() > 1 || kind(operand) != Kind::name) {
        findings_.report(Rule::syntax, span(phrase),
                         fmt::format("a hazard class is wanted here, not {}", text(phrase)),
                         "write the classes with commas between: skin-sens-1b, eye-irrit-2");
        return std::nullopt;
    }
    return hazard_named(operand);
}

/// The class that a word names. What the sheet has in capitals is mended; a near word is only
/// asked for, since the class next to it is another hazard.
std::optional<HazardClass> ValueReader::hazard_named(At operand) {
    const std::string_view written = text(operand);
    if (const auto found = find_hazard_class(written)) return found;
    const std::string meant = Names::as_name(written);
    const std::vector<std::string_view> further = said_further(meant);
    std::string hint = copy_it;
    if (written == no_hazard) {
        hint = "`none` stands alone: leave it out";
    } else if (find_hazard_class(meant)) {
        hint = fmt::format("write `{}`", meant);
    } else if (!further.empty()) {
        hint = fmt::format("{}: {}", further.size() == 1 ? "say it whole" : "say which",
                           fmt::join(further, ", "));
    } else if (const Near near = find_near(meant, hazard_class_words());
               near.alone && !near.word.empty()) {
        hint = fmt::format("did you mean `{}`?", near.word);
    }
    Finding& finding =
        findings_.report(Rule::unknown_name, span(operand),
                         fmt::format("`{}` is no hazard class", written), std::move(hint));
    if (find_hazard_class(meant)) {
        finding.fixes.push_back(put(span(operand), meant, true));
    } else {
        for (const std::string_view word : further)
            finding.fixes.push_back(put(span(operand), std::string(word), false));
    }
    return std::nullopt;
}

Value ValueReader::read_hazards(At value) {
    const Children phrases = children(value);
    std::vector<HazardClass> classes;
    bool good = true;
    if (phrases.size() == 1 && text({value.file, phrases[0]}) == no_hazard) {
        return Hazards{{static_cast<std::uint32_t>(model_.hazards.size()), 0}};
    }
    for (const NodeId node : phrases) {
        const At phrase{value.file, node};
        const std::optional<HazardClass> hazard = read_hazard(phrase);
        good = good && hazard;
        if (!hazard) continue;
        if (std::find(classes.begin(), classes.end(), *hazard) != classes.end()) {
            findings_.report(Rule::defined_twice, span(phrase),
                             fmt::format("`{}` is given twice", word(*hazard)), "take one out");
            good = false;
        }
        classes.push_back(*hazard);
    }
    if (!good) return {};
    const Slice slice{static_cast<std::uint32_t>(model_.hazards.size()),
                      static_cast<std::uint32_t>(classes.size())};
    model_.hazards.insert(model_.hazards.end(), classes.begin(), classes.end());
    return Hazards{slice};
}

Value ValueReader::read_cas(At value) {
    Value read = read_text(value);
    const auto* number = std::get_if<Text>(&read);
    if (number == nullptr || number->text.empty()) return read;
    const std::optional<int> wanted = cas_check_digit(number->text);
    if (wanted && number->text.back() - '0' == *wanted) return read;
    add_use(findings_.report(
        Rule::out_of_range, span(value), fmt::format("{} is no CAS number", text(value)),
        wanted ? fmt::format("its last digit checks the others, and would be {}: one of them is "
                             "another on its safety data sheet",
                             *wanted)
               : "write it as its safety data sheet has it, with two hyphens: \"78-70-6\""));
    return {};
}

} // namespace waxwright
