#include <budclock/report/pest_page.hpp>
#include <budclock/rules/load.hpp>
#include <budclock/sites/pest_choice.hpp>

#include "commands.hpp"
#include "messages.hpp"
#include "weather_input.hpp"

#include <ostream>

namespace budclock::cli {

ExitStatus run_pests(const PestsOptions& options, Environment& environment) {
  Diagnostics diagnostics;
  const rules::PestTable table = rules::load(rules::shipped_files(), diagnostics);
  print(diagnostics, environment);

  const sites::PestChoice choice = sites::choose_pests(table, options.pests, options.hosts);
  for (const std::string& problem : choice.problems) complain(problem, environment);
  if (!choice.problems.empty()) return ExitStatus::usage;

  const report::TextStyle style{environment.width, environment.colour};
  if (options.format == Format::json) {
    environment.out << report::pests_json(choice.pests, table);
  } else if (options.pests.empty() && options.hosts.empty()) {
    environment.out << report::pest_list_text(choice.pests, style);
  } else {
    for (const rules::Pest* pest : choice.pests) {
      if (pest != choice.pests.front()) environment.out << '\n';
      environment.out << report::pest_page_text(*pest, table, style);
    }
  }
  return answered_with(diagnostics);
}

}  // namespace budclock::cli
