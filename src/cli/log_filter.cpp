#include "log_filter.hpp"

#include "messages.hpp"

namespace budclock::cli {

bool match_sites(const SitesFile& file, std::vector<std::string>& names, Environment& environment) {
  const auto known = file.names();
  for (std::string& name : names) {
    std::string problem;
    const sites::Site* site = find_site(file, name, problem);
    if (site != nullptr) name = site->name;
    if (site != nullptr || std::find(known.begin(), known.end(), name) != known.end()) continue;
    complain(problem, environment);
    return false;
  }
  return true;
}

}  // namespace budclock::cli
