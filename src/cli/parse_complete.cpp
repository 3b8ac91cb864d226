#include "parse_common.hpp"

#include <algorithm>
#include <sstream>

namespace budclock::cli {
namespace {

bool has_name(const CLI::Option& option, std::string_view name) {
  const auto& names = option.get_lnames();
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// The option of that name, with its dashes; null where the command has none.
const CLI::Option* option_called(const CLI::App& command, const std::string& word) {
  return word.starts_with("-") ? command.get_option_no_throw(word) : nullptr;
}

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

std::vector<CompletionChoice> option_names(const CLI::App& command) {
  std::vector<CompletionChoice> choices;
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) choices.push_back({"--" + name, option->get_description()});
  }
  return choices;
}

/// The values of a type that names them: "csv|json|text".
std::vector<CompletionChoice> values_in(const std::string& type) {
  std::vector<CompletionChoice> choices;
  if (type.find('|') == std::string::npos) return choices;
  std::istringstream words{type};
  for (std::string word; std::getline(words, word, '|');) choices.push_back({word, {}});
  return choices;
}

/// What an option or a positional takes is told by its name and the type that --help shows.
Takes what_it_takes(const CLI::Option& option) {
  const std::string type = option.get_type_name();
  if (has_name(option, "site")) return Takes::sites;
  if (type == "PEST") return Takes::pests;
  if (type == "STAGE") return Takes::stages;
  if (type == "IDS") return Takes::observations;
  if (type == "PLANT") return Takes::plants;
  if (type == "FILE" || type == "LOG") return Takes::files;
  if (type == "DIR") return Takes::folders;
  return Takes::words;
}

void complete_value(Completion& completion, const CLI::Option& option, std::string typed) {
  completion.takes = what_it_takes(option);
  completion.choices = values_in(option.get_type_name());
  const bool comma_is_a_value = std::any_of(completion.choices.begin(), completion.choices.end(),
                                            [](const CompletionChoice& each) { return each.word == ","; });
  const bool may_be_a_list = completion.takes != Takes::sites && !comma_is_a_value;  // a site's name may hold commas
  const std::size_t comma = may_be_a_list ? typed.rfind(',') : std::string::npos;
  if (comma != std::string::npos) {
    completion.before += typed.substr(0, comma + 1);
    typed.erase(0, comma + 1);
  }
  completion.typed = std::move(typed);
}

/// Follows the words of a command and knows what the next one belongs to.
struct Follower {
  const CLI::App& command;
  Completion& completion;
  const CLI::Option* open = nullptr;  ///< the option whose values are being given
  bool wants = false;                 ///< it has none yet

  void take(const std::string& word) {
    if (!wants && word.starts_with("-") && word != "-") {
      const std::size_t equals = word.find('=');
      const CLI::Option* option = option_called(command, word.substr(0, equals));
      const bool takes_value = option != nullptr && option->get_items_expected_max() > 0;
      open = takes_value ? option : nullptr;
      wants = takes_value && equals == std::string::npos;
      if (takes_value && !wants) note(*option, word.substr(equals + 1));
    } else if (open != nullptr) {
      note(*open, word);
      wants = false;
    }
    const bool takes_more = open != nullptr && (wants || open->get_allow_extra_args());
    if (!takes_more) open = nullptr;
  }

  void note(const CLI::Option& option, const std::string& value) {
    if (has_name(option, "sites")) completion.sites_file = value;
    if (option.get_type_name() == "PEST") completion.pest = value;
    if (has_name(option, "pests") && option.get_type_name() == "DIR") completion.pest_folder = value;
  }

  void complete(const std::string& word) {
    const std::size_t equals = word.find('=');
    if (open != nullptr && (wants || !word.starts_with("-"))) {
      complete_value(completion, *open, word);
    } else if (word.starts_with("--") && equals != std::string::npos) {
      const CLI::Option* option = option_called(command, word.substr(0, equals));
      completion.before = word.substr(0, equals + 1);
      if (option != nullptr) complete_value(completion, *option, word.substr(equals + 1));
    } else if (word.starts_with("-")) {
      completion.choices = option_names(command);
      completion.typed = word;
    } else {
      for (const CLI::Option* option : command.get_options()) {
        if (option->get_positional()) return complete_value(completion, *option, word);
      }
      completion.choices = option_names(command);
      completion.typed = word;
    }
  }
};

}  // namespace

Completion complete(const CLI::App& app, const std::vector<std::string>& words) {
  Completion completion;
  const std::string typed = words.empty() ? "" : words.back();
  if (words.size() <= 1) {
    if (typed.starts_with("-")) {
      completion.choices = option_names(app);
    } else {
      for (const CLI::App* command : app.get_subcommands({})) {
        completion.choices.push_back({command->get_name(), first_line(command->get_description())});
      }
    }
    completion.typed = typed;
    return completion;
  }
  const auto named = app.get_subcommands([&](const CLI::App* each) { return each->get_name() == words.front(); });
  if (named.empty()) return completion;
  const CLI::App* command = named.front();
  Follower follower{*command, completion};
  std::for_each(words.begin() + 1, words.end() - 1, [&](const std::string& word) { follower.take(word); });
  follower.complete(typed);
  return completion;
}

}  // namespace budclock::cli
