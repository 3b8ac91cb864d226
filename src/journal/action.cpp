#include <budclock/journal/action.hpp>
#include <budclock/rules/action.hpp>

namespace budclock::journal {

std::vector<const ActionText*> missing_texts(const ActionTaken& row) {
  std::vector<const ActionText*> missing;
  if (!rules::is_pesticide(row.action)) return missing;
  for (const ActionText& each : k_action_texts) {
    if (!each.required_as.empty() && (row.*each.text).empty()) missing.push_back(&each);
  }
  return missing;
}

std::string_view origin_name(weather::Origin origin) {
  for (const auto& [name, named] : k_origin_names) {
    if (named == origin) return name;
  }
  return {};
}

}  // namespace budclock::journal
