#include <budclock/sites/pest_choice.hpp>

#include "commands.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"

#include <algorithm>
#include <ostream>
#include <set>
#include <string_view>
#include <utility>

namespace budclock::cli {
namespace {

/// A name that a shell cannot be given on one line, or that the program would take for an option, is not offered.
bool can_be_offered(std::string_view word, const Completion& completion) {
  const bool control =
      std::any_of(word.begin(), word.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
  const bool looks_like_an_option =
      completion.takes != Takes::words && completion.before.empty() && word.starts_with('-');
  return !word.empty() && !control && !looks_like_an_option;
}

std::vector<CompletionChoice> site_names(const Completion& completion, const rules::PestTable& pests,
                                         const Environment& environment) {
  PracticeOptions practice;
  practice.sites_file = completion.sites_file;
  Diagnostics ignored;
  const auto file = read_sites_file(practice, environment, pests, ignored);
  std::vector<CompletionChoice> choices;
  if (!file) return choices;
  for (const std::string& name : file->names()) choices.push_back({name, {}});
  return choices;
}

std::vector<CompletionChoice> plant_names(const rules::PestTable& table) {
  std::set<std::string> names;
  for (const rules::Pest& pest : table.pests) {
    for (const rules::Host& host : pest.hosts) names.insert(host.name);
  }
  std::vector<CompletionChoice> choices;
  for (const std::string& name : names) choices.push_back({name, {}});
  return choices;
}

std::vector<CompletionChoice> pest_ids(const rules::PestTable& table) {
  std::vector<CompletionChoice> choices;
  for (const rules::Pest& pest : table.pests) choices.push_back({pest.id, pest.name});
  return choices;
}

/// Of the pest that the line names; none where it names none or several.
std::vector<CompletionChoice> parts_of_pest(const Completion& completion, const rules::PestTable& table) {
  std::vector<CompletionChoice> choices;
  const auto named = sites::choose_pests(table, {completion.pest}).pests;
  if (completion.pest.empty() || named.size() != 1) return choices;
  if (completion.takes == Takes::stages) {
    for (const rules::Stage& stage : named.front()->stages) choices.push_back({stage.id, stage.name});
  } else {
    for (const rules::Observation& each : named.front()->observations) choices.push_back({each.id, each.text});
  }
  return choices;
}

std::vector<CompletionChoice> choices_of(const Completion& completion, const Environment& environment) {
  if (completion.takes == Takes::words) return completion.choices;
  // What is wrong with the files is told when the command runs; here it would stand in the middle of a line.
  std::ostream silent{nullptr};
  Environment quiet{.in = environment.in, .out = silent, .err = silent, .today = environment.today, .width = 80};
  Diagnostics ignored;
  const auto table = load_pests(completion.pest_folder, quiet, ignored);
  if (!table) return {};
  switch (completion.takes) {
    case Takes::sites:
      return site_names(completion, *table, environment);
    case Takes::pests:
      return pest_ids(*table);
    case Takes::plants:
      return plant_names(*table);
    case Takes::stages:
    case Takes::observations:
      return parts_of_pest(completion, *table);
    default:
      return {};
  }
}

}  // namespace

ExitStatus run_complete(const CompleteOptions& options, Environment& environment) {
  const Completion& completion = options.completion;
  const bool of_shell = completion.takes == Takes::files || completion.takes == Takes::folders;
  environment.out << (completion.takes == Takes::files ? "files\n" : of_shell ? "folders\n" : "words\n");
  if (of_shell) return ExitStatus::answered;
  for (const CompletionChoice& choice : choices_of(completion, environment)) {
    if (!choice.word.starts_with(completion.typed) || !can_be_offered(choice.word, completion)) continue;
    const std::string whole = completion.before + choice.word;
    if (options.shell == CompletionShell::bash) {
      environment.out << quoted_for_shell(std::string_view{whole}.substr(options.kept.size()), options.quote) << '\n';
    } else {
      environment.out << whole << '\t' << choice.help << '\n';
    }
  }
  return ExitStatus::answered;
}

}  // namespace budclock::cli
