#include "driver/complete.hpp"

#include <algorithm>
#include <string_view>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/git.hpp"
#include "driver/options_app.hpp"
#include "driver/target.hpp"
#include "model/library.hpp"
#include "pipeline/pipeline.hpp"

namespace waxwright {

namespace {

/// A word that fits, and what it is; empty where there is nothing to say.
struct Candidate {
    std::string word;
    std::string about;
};
using Candidates = std::vector<Candidate>;

/// What is known of a call up to the word that is being written.
struct Call {
    const CLI::App* command = nullptr;
    CLI::Option* option = nullptr;         // that the word is the value of
    bool only_files = false;               // after `--`
    std::vector<std::string> positionals;  // given before the word
    std::vector<const CLI::Option*> given; // options before it
};

bool takes_value(const CLI::Option* option) {
    return option->get_items_expected_max() > 0;
}

CLI::Option* option_called(const CLI::App* command, const std::string& name) {
    // CLI11 has no way to look one up that doesn't throw.
    for (const CLI::Option* option : command->get_options()) {
        if (option->nonpositional() && option->check_name(name))
            return const_cast<CLI::Option*>(option); // a validator is asked for by a non-const one
    }
    return nullptr;
}

/// Reads `word`, which stands before the one that is being written.
void read_word(Call& call, const std::string& word) {
    if (call.option != nullptr && word == "=") return; // bash parts `--as=json` into three
    if (call.option != nullptr) {
        call.option = nullptr;
    } else if (call.only_files || word == "-" || !word.starts_with('-')) {
        call.positionals.push_back(word);
    } else if (word == "--") {
        call.only_files = true;
    } else {
        const std::size_t equals = word.find('=');
        CLI::Option* option = option_called(call.command, word.substr(0, equals));
        if (option == nullptr) return;
        call.given.push_back(option);
        if (takes_value(option) && equals == std::string::npos) call.option = option;
    }
}

Candidates rules() {
    Candidates found;
    for (const RuleInfo& rule : all_rules())
        found.push_back({std::string(rule.name), std::string(rule.about)});
    return found;
}

/// What `waxwright materials` takes: modules, kinds, names.
Candidates material_words() {
    Candidates found;
    for (const LibraryModule& module : library_modules())
        found.push_back({std::string(module.name), "a module of the library"});
    const Workshop library = open_library();
    const Model& model = library.model;
    for (BlockId id = 0; id < model.blocks.size(); ++id) {
        if (model.in_library(id)) continue;
        const std::string kind(word(model.blocks[id].kind));
        if (std::none_of(found.begin(), found.end(),
                         [&](const Candidate& each) { return each.word == kind; }))
            found.push_back({kind, "a kind of material"});
        found.push_back({std::string(model.name(id)), std::string(model.text(id, Key::about))});
    }
    return found;
}

/// The recipes and batches of the file that the call names.
Candidates names_in(const Call& call) {
    if (call.positionals.empty() || call.positionals[0] == "-") return {};
    Options options;
    options.file = call.positionals[0];
    const FileText text = read_file(options.file);
    if (!text.text) return {};
    Sources sources;
    sources.add(options.file, *text.text);
    const Workshop workshop = open_workshop(std::move(sources), read_from_disk(options));
    const Model& model = workshop.model;
    Candidates found;
    for (const BlockId id : own_sheets(model))
        found.push_back({std::string(model.name(id)), std::string(word(model.blocks[id].kind))});
    return found;
}

Candidates revisions() {
    Candidates found{{"HEAD", "what was committed last"}};
    const GitAnswer answer = ask_git(
        {"for-each-ref", "--format=%(refname:short)", "refs/heads", "refs/tags", "refs/remotes"});
    for (std::size_t at = 0; answer.status == 0 && at < answer.out.size();) {
        const std::size_t end = std::min(answer.out.find('\n', at), answer.out.size());
        found.push_back({answer.out.substr(at, end - at), ""});
        at = end + 1;
    }
    return found;
}

struct Fitting {
    std::string_view files = ":none";
    Candidates words;
};

/// By what stands for the value in help: RULE, FOLDER.
Fitting fitting_of(std::string_view label, bool of_option, const Call& call) {
    if (label == "FILE") return {of_option ? ":files" : ":recipes", {}};
    if (label == "OLD" || label == "NEW") return {":recipes", {}};
    if (label == "FOLDER") return {":folders", {}};
    if (label == "RULE") return {":none", rules()};
    if (label == "WORD") return {":none", material_words()};
    if (label == "NAME") return {":none", names_in(call)};
    if (label == "REV") return {":none", revisions()};
    return {};
}

/// The values of an option. Where several may be given with commas, the ones before stay.
Fitting values_of(CLI::Option* option, const Call& call, const std::string& begun) {
    const std::vector<std::string> words = words_of(option);
    if (words.empty()) return fitting_of(option->get_option_text(), true, call);
    const std::size_t comma =
        option->get_delimiter() == '\0' ? std::string::npos : begun.rfind(option->get_delimiter());
    const std::string before = comma == std::string::npos ? "" : begun.substr(0, comma + 1);
    Fitting fitting;
    for (const std::string& word : words) {
        const bool there = fmt::format(",{}", before).find("," + word + ",") != std::string::npos;
        if (!there) fitting.words.push_back({before + word, ""});
    }
    return fitting;
}

/// The options that may still be given.
Candidates options_of(const Call& call) {
    Candidates found;
    for (const CLI::Option* option : call.command->get_options()) {
        if (!option->nonpositional()) continue;
        const bool again = option->get_multi_option_policy() == CLI::MultiOptionPolicy::TakeAll ||
                           option->get_expected_max() > 1;
        if (!again && std::find(call.given.begin(), call.given.end(), option) != call.given.end())
            continue;
        for (const std::string& name : option->get_lnames())
            found.push_back({"--" + name, option->get_description()});
        if (!option->get_lnames().empty()) continue; // its long name says more
        for (const std::string& name : option->get_snames())
            found.push_back({"-" + name, option->get_description()});
    }
    return found;
}

Fitting positional_of(const Call& call) {
    std::size_t place = call.positionals.size();
    for (const CLI::Option* option : call.command->get_options()) {
        if (option->nonpositional()) continue;
        if (place == 0 || option->get_items_expected_max() > 1)
            return fitting_of(option->get_name(true), false, call);
        --place;
    }
    return {};
}

Fitting commands_of(const CLI::App& app) {
    Fitting fitting;
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        fitting.words.push_back({command->get_name(), command->get_description()});
    Call call;
    call.command = &app;
    for (Candidate& option : options_of(call))
        fitting.words.push_back(std::move(option));
    return fitting;
}

/// What fits where `begun` is being written.
Fitting fitting_at(const Call& call, std::string& begun) {
    const std::size_t equals = begun.find('=');
    if (call.option != nullptr) {
        if (begun == "=") begun.clear();
        return values_of(call.option, call, begun);
    }
    if (call.only_files || !begun.starts_with('-')) return positional_of(call);
    if (equals == std::string::npos) return {":none", options_of(call)};
    const std::string name = begun.substr(0, equals);
    CLI::Option* option = option_called(call.command, name);
    if (option == nullptr || !takes_value(option)) return {};
    Fitting fitting = values_of(option, call, begun.substr(equals + 1));
    for (Candidate& each : fitting.words)
        each.word.insert(0, name + "=");
    return fitting;
}

std::string in_one_line(std::string text) {
    std::replace_if(
        text.begin(), text.end(), [](char c) { return c == '\t' || c == '\n'; }, ' ');
    return text;
}

} // namespace

std::string completions(const std::vector<std::string>& words) {
    Options options;
    const std::shared_ptr<CLI::App> app = make_app(options);
    std::string begun = words.empty() ? std::string() : words.back();
    Fitting fitting;
    if (words.size() < 2) {
        fitting = commands_of(*app);
    } else {
        const auto all = app->get_subcommands([](const CLI::App*) { return true; });
        const auto command = std::find_if(all.begin(), all.end(), [&](const CLI::App* each) {
            return each->get_name() == words[0];
        });
        if (command == all.end()) return ":none\n";
        Call call;
        call.command = *command;
        for (std::size_t i = 1; i + 1 < words.size(); ++i)
            read_word(call, words[i]);
        fitting = fitting_at(call, begun);
    }
    std::string text = fmt::format("{}\n", fitting.files);
    for (const Candidate& each : fitting.words) {
        if (each.word.starts_with(begun))
            text += fmt::format("{}\t{}\n", each.word, in_one_line(each.about));
    }
    return text;
}

} // namespace waxwright
