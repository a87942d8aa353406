#include "driver/mend.hpp"

#include <algorithm>
#include <iterator>
#include <memory>
#include <set>
#include <span>
#include <tuple>

#include <fmt/format.h>

#include "driver/parallel.hpp"
#include "findings/mending.hpp"

namespace waxwright {

namespace {

/// Every try looks at all files anew; so many are made.
constexpr std::size_t most_tries = 200;
/// What is mended can bring up what it hid, and that can be mended too.
constexpr int most_rounds = 5;

/// An error by what a mend leaves as it is: the file, the line and the rule.
using Error = std::tuple<std::string, std::uint32_t, Rule>;
using Errors = std::multiset<Error>;

/// A line that a mend adds lines to, and how many. By file, then by line.
struct Grown {
    FileId file;
    std::uint32_t line;
    std::uint32_t by;
};

/// The line of the text as it was that a line of the mended text comes from.
std::uint32_t line_before(std::uint32_t line, FileId file, std::span<const Grown> grown) {
    std::uint32_t shift = 0;
    for (const Grown& each : grown) {
        if (each.file != file || line <= each.line + shift) continue;
        shift += std::min(each.by, line - each.line - shift);
    }
    return line - shift;
}

Errors errors_of(const Workshop& workshop, std::span<const Grown> grown = {}) {
    Errors errors;
    const Sources& sources = workshop.model.sources;
    for (const Finding& finding : workshop.findings.all()) {
        if (finding.severity != Severity::error) continue;
        const Source& source = sources[finding.at.file];
        const std::uint32_t line = source.place(finding.at.begin).line;
        errors.emplace(source.name(), line_before(line, finding.at.file, grown), finding.rule);
    }
    return errors;
}

/// A guess at what a maker's own name was meant to be. All else is a word of the language, or how
/// it is written.
bool is_guess(Rule rule) {
    return rule == Rule::unknown_name;
}

bool is_of_writing(Rule rule) {
    const Family family = info(rule).family;
    return family == Family::language || family == Family::units || family == Family::names;
}

struct Candidate {
    const Fix* fix;
    std::size_t mend; // in Mending::mends
};

class Mender {
public:
    Mender(const Sources& sources, const Workshop& before, const ReadFile& read)
        : sources_(sources), read_(read), before_(before), errors_(errors_of(before)) {
        made_.texts.reserve(before.model.roots.size());
        for (const FileId root : before.model.roots)
            made_.texts.emplace_back(sources[root].text());
        made_.changed.resize(made_.texts.size());
    }

    Mending run(const std::vector<bool>& wanted) {
        const std::vector<Candidate> all = candidates(wanted);
        if (!all.empty() && !take(all)) one_by_one(all);
        std::vector<Edit> done;
        for (const Candidate& each : taken_) {
            made_.mends[each.mend].refused.clear();
            done.insert(done.end(), each.fix->edits.begin(), each.fix->edits.end());
            made_.changed[each.fix->edits[0].at.file] = true;
        }
        made_.texts = with(done);
        return std::move(made_);
    }

private:
    /// Those that can be carried out side by side; of the others it is said why not.
    std::vector<Candidate> candidates(const std::vector<bool>& wanted) {
        std::vector<Candidate> all;
        for (const Finding& finding : before_.findings.all()) {
            if (!wanted[static_cast<std::size_t>(finding.rule)]) continue;
            const Fix* fix = certain_fix(finding, sources_);
            if (fix == nullptr || fix->edits.empty()) continue;
            const Edit& edit = fix->edits[0];
            const Source& source = sources_[edit.at.file];
            if (source.is_library()) continue;
            const std::size_t index = made_.mends.size();
            made_.mends.push_back({edit.at.file,
                                   source.place(edit.at.begin),
                                   finding.rule,
                                   std::string(source.slice(edit.at)),
                                   edit.text,
                                   {}});
            Mend& mend = made_.mends.back();
            for (std::size_t i = 1; i < fix->edits.size(); ++i) {
                const Edit& other = fix->edits[i];
                mend.others.push_back({source.place(other.at.begin),
                                       std::string(sources_.slice(other.at)), other.text});
            }
            if (edit.at.file >= made_.texts.size()) {
                mend.refused = "its file is only used here, and was not named";
            } else if (source.name() == "-") {
                mend.refused = "standard input can't be written to";
            } else if (!all.empty() && overlap(*all.back().fix, *fix)) {
                mend.refused = "another mend is at the same place; run it again after this one";
            } else {
                mend.refused = "there is too much else wrong with the files to try it";
                all.push_back({fix, index});
            }
        }
        return all;
    }

    std::vector<std::string> with(const std::vector<Edit>& edits) const {
        std::vector<std::string> texts;
        for (FileId file = 0; file < made_.texts.size(); ++file) {
            std::vector<Edit> own;
            std::copy_if(edits.begin(), edits.end(), std::back_inserter(own),
                         [&](const Edit& edit) { return edit.at.file == file; });
            texts.push_back(edited(sources_[file].text(), std::move(own)));
        }
        return texts;
    }

    std::vector<Grown> grown_by(const std::vector<Edit>& edits) const {
        std::vector<Grown> grown;
        for (const Edit& edit : edits) {
            const auto by = std::count(edit.text.begin(), edit.text.end(), '\n');
            if (by == 0) continue;
            grown.push_back({edit.at.file, sources_[edit.at.file].place(edit.at.begin).line,
                             static_cast<std::uint32_t>(by)});
        }
        std::sort(grown.begin(), grown.end(), [](const Grown& a, const Grown& b) {
            return std::tie(a.file, a.line) < std::tie(b.file, b.line);
        });
        return grown;
    }

    /// Takes these on top of what is taken already, if the files are better for it.
    bool take(const std::vector<Candidate>& more) {
        ++tries_;
        std::vector<Candidate> all = taken_;
        all.insert(all.end(), more.begin(), more.end());
        std::vector<Edit> edits;
        for (const Candidate& each : all)
            edits.insert(edits.end(), each.fix->edits.begin(), each.fix->edits.end());
        Sources files;
        const std::vector<std::string> texts = with(edits);
        for (FileId file = 0; file < texts.size(); ++file)
            files.add(sources_[file].name(), texts[file]);
        Workshop after = open_workshop(std::move(files), read_);
        work(after, on_all_cores);
        Errors errors = errors_of(after, grown_by(edits));
        worse_ = what_is_worse(errors, more);
        if (!worse_.empty()) return false;
        taken_ = std::move(all);
        errors_ = std::move(errors);
        return true;
    }

    std::string what_is_worse(const Errors& errors, const std::vector<Candidate>& more) const {
        const bool guessed = std::any_of(more.begin(), more.end(), [&](const Candidate& each) {
            return is_guess(made_.mends[each.mend].rule);
        });
        Errors fresh;
        std::set_difference(errors.begin(), errors.end(), errors_.begin(), errors_.end(),
                            std::inserter(fresh, fresh.end()));
        for (const Error& error : fresh) {
            const std::string& file = std::get<0>(error);
            const std::uint32_t line = std::get<1>(error);
            const Rule rule = std::get<2>(error);
            const bool here = std::any_of(more.begin(), more.end(), [&](const Candidate& each) {
                const Mend& mend = made_.mends[each.mend];
                return mend.place.line == line && sources_[mend.file].name() == file;
            });
            if (errors.size() <= errors_.size() && !guessed && (here || !is_of_writing(rule))) {
                continue;
            }
            return fmt::format("it would bring up another error: {}:{}, {}", file, line,
                               info(rule).name);
        }
        return {};
    }

    /// First a file's mends together, then, where that is no better, each alone.
    void one_by_one(const std::vector<Candidate>& all) {
        for (std::size_t i = 0; i < all.size();) {
            const FileId file = made_.mends[all[i].mend].file;
            std::vector<Candidate> own;
            for (; i < all.size() && made_.mends[all[i].mend].file == file; ++i)
                own.push_back(all[i]);
            if (own.size() < all.size() && own.size() > 1) {
                if (tries_ >= most_tries) return;
                if (take(own)) continue;
            }
            for (const Candidate& each : own) {
                if (tries_ >= most_tries) return;
                if (!take({each})) made_.mends[each.mend].refused = worse_;
            }
        }
    }

    const Sources& sources_;
    const ReadFile& read_;
    const Workshop& before_;
    Errors errors_; // with what is taken so far
    Mending made_;
    std::vector<Candidate> taken_;
    std::string worse_; // why the last try was given up
    std::size_t tries_ = 0;
};

} // namespace

Mending mend(const Sources& sources, const Workshop& before, const std::vector<bool>& wanted,
             const ReadFile& read) {
    Mending all = Mender(sources, before, read).run(wanted);
    const auto changed = [](const Mending& mending) {
        return std::find(mending.changed.begin(), mending.changed.end(), true) !=
               mending.changed.end();
    };
    bool goes_on = changed(all);
    for (int round = 1; goes_on && round < most_rounds; ++round) {
        Sources now;
        for (FileId file = 0; file < all.texts.size(); ++file)
            now.add(sources[file].name(), all.texts[file]);
        Workshop again = open_workshop(std::move(now), read);
        work(again, on_all_cores);
        Mending more = Mender(again.model.sources, again, read).run(wanted);
        goes_on = changed(more);
        // What was refused has been tried again.
        all.mends.erase(std::remove_if(all.mends.begin(), all.mends.end(),
                                       [](const Mend& each) { return !each.refused.empty(); }),
                        all.mends.end());
        std::move(more.mends.begin(), more.mends.end(), std::back_inserter(all.mends));
        for (FileId file = 0; file < all.texts.size(); ++file)
            all.changed[file] = all.changed[file] || more.changed[file];
        all.texts = std::move(more.texts);
    }
    return all;
}

} // namespace waxwright
