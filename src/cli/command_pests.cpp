#include <budclock/report/pest_page.hpp>

#include "commands.hpp"
#include "messages.hpp"
#include "pest_files.hpp"
#include "weather_input.hpp"

#include <ostream>
#include <vector>

namespace budclock::cli {

ExitStatus run_pests(const PestsOptions& options, Environment& environment) {
  Diagnostics of_pests;
  const auto loaded = load_pests(options.pest_folder, environment, of_pests);
  if (!loaded) return ExitStatus::no_answer;
  const rules::PestTable& table = *loaded;
  const auto asked = pests_asked(table, options.pests, options.hosts, environment);
  if (!asked) return ExitStatus::usage;
  std::vector<const rules::Pest*> pests = *asked;
  if (options.due) std::erase_if(pests, [&](const rules::Pest* pest) { return !rules::due_in(*pest, *options.due); });

  const report::TextStyle style{environment.width, environment.colour};
  if (options.format == Format::json) {
    environment.out << report::pests_json(pests, table);
  } else if (options.pests.empty() && options.hosts.empty()) {
    environment.out << report::pest_list_text(pests, style);
  } else {
    for (const rules::Pest* pest : pests) {
      if (pest != pests.front()) environment.out << '\n';
      environment.out << report::pest_page_text(*pest, table, style);
    }
  }
  return answered_with(of_pests);
}

}  // namespace budclock::cli
