#include "parse.hpp"

#include "parse_common.hpp"

#include <algorithm>

namespace budclock::cli {
namespace {

constexpr const char* k_version = "budclock " BUDCLOCK_VERSION
                                  "\n"
                                  "Copyright (c) 2026 The budclock authors. MIT licence.\n"
                                  "There is no warranty. The label is the law; a forecast only tells when to look.\n";

constexpr const char* k_examples = R"(Examples:
  budclock when boxwood --weather home.csv
  budclock when hemlock --weather home.csv --today 2014-04-10 --why
  budclock when --weather home.csv --format csv > due.csv
  budclock nightly --sites sites.csv --out reports --due
  budclock yearline --weather home.csv
  budclock hindcast --weather home.csv
  budclock tally --weather home.csv --lower 50F --start 03-01
  budclock pests cooley
  budclock when --site "Mill Lane"
  budclock seen --site "Mill Lane" --pest boxwood --saw open-buds,nymphs
  budclock did --site "Mill Lane" --pest boxwood --action soap

Exit status: 0 answered; 1 answered, but malformed values were set aside;
2 wrong command line; 3 no answer; 4 output not written; 5 another run holds
the lock.)";

/// The nearest long option of a command to one it does not have.
std::optional<std::string> nearest_option(const CLI::App& command, const std::string& given) {
  std::vector<std::string> names;
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  const auto nearest = nearest_name(given.substr(0, given.find('=')), {names.begin(), names.end()});
  return nearest ? std::optional<std::string>{*nearest} : std::nullopt;
}

UsageError unknown_word(const CLI::App& app, const CLI::App& command, const std::string& word) {
  if (word.starts_with("-")) {
    const auto nearest = nearest_option(command, word);
    return {fmt::format("no option {}{}", word,
                        nearest ? fmt::format(": did you mean {}?", *nearest) : ": see budclock --help")};
  }
  std::vector<std::string> names;
  for (const CLI::App* each : app.get_subcommands({})) names.push_back(each->get_name());
  const auto nearest = nearest_name(word, {names.begin(), names.end()});
  return {fmt::format("no command '{}': {}", word,
                      nearest ? fmt::format("did you mean '{}'?", *nearest)
                              : fmt::format("the commands are {}", fmt::join(names, ", ")))};
}

/// What the scripts in .package/ ask: "__complete bash LINE WORDBREAKS HOME" or "__complete zsh HOME WORD...".
Command asked_by_shell(const CLI::App& app, const std::vector<std::string>& arguments) {
  CompleteOptions asked;
  if (arguments.size() == 5 && arguments[1] == "bash") {
    ShellLine line = split_shell_line(arguments[2], arguments[3], arguments[4]);
    line.words.erase(line.words.begin());  // the program's name
    asked.quote = line.quote;
    asked.kept = line.kept;
    asked.completion = complete(app, line.words);
    return asked;
  }
  if (arguments.size() < 4 || arguments[1] != "zsh") return UsageError{"the shell's question is not understood"};
  asked.shell = CompletionShell::zsh;
  std::vector<std::string> words{arguments.begin() + 3, arguments.end()};
  for (std::string& word : words) {
    if (word.starts_with("~/")) word.replace(0, 1, arguments[2]);
  }
  asked.completion = complete(app, words);
  return asked;
}

}  // namespace

Command parse(const std::vector<std::string>& arguments) {
  CLI::App app{
      "budclock tells when landscape pests can be reached: when to look, when to act if you find them,\n"
      "and when to leave them alone."};
  app.name("budclock");
  app.footer(k_examples);
  app.set_version_flag("--version", k_version, "Print the version");
  const std::vector<CommandLine> commands{add_when(app),  add_nightly(app),  add_digest(app),    add_stops(app),
                                          add_note(app),  add_yearline(app), add_hindcast(app),  add_tally(app),
                                          add_pests(app), add_check(app),    add_seen(app),      add_log(app),
                                          add_did(app),   add_records(app),  add_day_screen(app)};
  app.require_subcommand(0, 1);
  if (arguments.empty()) return ShowText{app.help()};
  if (arguments.front() == "__manual") return ShowText{manual_page(app)};
  if (arguments.front() == "__complete") return asked_by_shell(app, arguments);
  const auto command = std::find_if(commands.begin(), commands.end(),
                                    [&](const CommandLine& each) { return each.app->get_name() == arguments.front(); });
  const bool is_command = command != commands.end();
  const CLI::App& active = is_command ? *command->app : app;
  if (!is_command && !arguments.front().starts_with("-")) return unknown_word(app, app, arguments.front());

  try {
    // The library takes its arguments last first.
    app.parse(std::vector<std::string>{arguments.rbegin(), arguments.rend()});
    if (!is_command) return unknown_word(app, app, arguments.front());
    return command->result();
  } catch (const CLI::CallForHelp&) {
    return ShowText{is_command ? active.help(app.get_name()) : app.help()};
  } catch (const CLI::CallForVersion&) {
    return ShowText{k_version};
  } catch (const CLI::ExtrasError&) {
    const auto extras = active.remaining(true);
    return unknown_word(app, active, extras.empty() ? arguments.front() : extras.front());
  } catch (const CLI::ParseError& error) {
    return UsageError{error.what()};
  }
}

}  // namespace budclock::cli
