#include <budclock/forecast/evaluate.hpp>
#include <budclock/report/letter.hpp>
#include <budclock/report/page.hpp>
#include <budclock/rules/load.hpp>

#include "commands.hpp"
#include "file_patterns.hpp"
#include "messages.hpp"
#include "own_files.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"
#include "site_question.hpp"
#include "site_weather.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <ostream>
#include <string_view>
#include <utility>

namespace budclock::cli {
namespace {

/// The part that a file holds.
std::string_view part_name(std::string_view path) { return path.substr(path.find_last_of('/') + 1); }

/// The shipped parts, and those of the firm in their place.
report::LetterTemplates templates(const std::string& folder, Diagnostics& diagnostics) {
  const auto shipped = rules::shipped_letter_parts();
  std::vector<report::LetterPart> parts;
  for (const rules::RuleFile& file : shipped) {
    parts.push_back({part_name(file.name), file.text, file.name});
  }
  std::vector<OwnFile> own;
  if (!folder.empty()) {
    const std::string remedy = fmt::format("put {} or others there", report::letter_part_names().front());
    own = read_own_files(folder, {".txt", "letter parts", "holds no part of a letter", remedy}, diagnostics);
  }
  for (const OwnFile& file : own) parts.push_back({part_name(file.path), file.text, file.path});
  return report::read_letter(parts, diagnostics);
}

std::string client_of(const sites::Site& site) {
  const auto found =
      std::find_if(site.contact.begin(), site.contact.end(), [](const auto& field) { return field.first == "client"; });
  return found == site.contact.end() ? "" : found->second;
}

}  // namespace

ExitStatus run_note(const NoteOptions& options, Environment& environment) {
  const Day today = options.today.value_or(environment.today);
  Diagnostics diagnostics;
  const auto table = load_pests(options.practice.pest_folder, environment, diagnostics);
  if (!table) return ExitStatus::no_answer;
  const auto parts = templates(options.templates, diagnostics);
  const auto file = any_at_least(diagnostics, Severity::error)
                        ? std::nullopt
                        : read_sites_file(options.practice, environment, *table, diagnostics);
  if (!file) {
    print(diagnostics, environment);
    return ExitStatus::no_answer;
  }
  std::string problem;
  const sites::Site* site = find_site(*file, options.site, problem);
  if (site == nullptr) {
    print(diagnostics, environment);
    complain(problem, environment);
    return ExitStatus::usage;
  }
  const Day last = std::max(today, environment.today);
  const journal::LogContext context{*table, file->names(), last};
  const auto log = read_scouting_log(find_log(options.practice, environment, file->path), context, diagnostics);
  const auto actions = read_action_log(find_actions(options.practice, environment, file->path), context, diagnostics);
  std::vector<const rules::Pest*> all;
  for (const rules::Pest& pest : table->pests) all.push_back(&pest);
  const forecast::Question question = question_of(*site, *table, all, log, actions, today);
  auto record =
      read_site_record(request_of(*site, folder_of(file->path), diagnostics), today, environment, diagnostics);
  print(diagnostics, environment, false);
  if (!record) {
    complain(fmt::format("{} has no weather: see its sources in {}", site->name, file->path), environment);
    return ExitStatus::no_answer;
  }
  const forecast::SiteForecast answer = forecast::evaluate(
      question, {std::move(record->days), today, std::move(record->notes), std::move(record->normals)});
  if (answer.weather.too_old) {
    complain(fmt::format("the weather ends too long before {}: nothing new can be written", iso(today)), environment);
    return ExitStatus::no_answer;
  }
  const report::Document letter = report::letter(answer, {client_of(*site), question.sightings, question.hosts}, parts);
  environment.out << (options.format == Format::page
                          ? report::html_page(answer.site, report::as_html(letter))
                          : report::as_text(letter, {environment.width, environment.colour}));
  return answered_with(diagnostics);
}

}  // namespace budclock::cli
