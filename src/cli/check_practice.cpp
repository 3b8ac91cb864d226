#include "check_practice.hpp"

#include <budclock/sites/hand_table.hpp>

namespace budclock::cli {
namespace {

/// The header line has these columns; what else it has does not matter.
bool has_columns(std::string_view text, const std::vector<std::string_view>& wanted) {
  Diagnostics ignored;
  const sites::HandTable table = sites::read_hand_table(text, "", {wanted, wanted, ""}, ignored);
  return !table.header.empty();
}

/// The first lines, of which one is the header if any is.
std::string_view first_lines(std::string_view text) { return text.substr(0, k_enough_to_tell); }

}  // namespace

PracticeFile practice_file(std::string_view text) {
  const std::size_t first = text.find_first_not_of("\xEF\xBB\xBF \t\r\n");
  if (first == std::string_view::npos) return PracticeFile::neither;
  if (text[first] == '{' || text[first] == '[') {
    const bool sites =
        text.find("\"budclock/sites/") != std::string_view::npos || text.find("\"sites\"") != std::string_view::npos;
    return sites ? PracticeFile::sites : PracticeFile::neither;
  }
  const std::string_view lines = first_lines(text);
  if (has_columns(lines, {"date", "site", "pest", "action"})) return PracticeFile::actions;
  if (has_columns(lines, {"date", "site", "pest"})) return PracticeFile::log;
  // Tables of weather name their station and its place too, but they have dates.
  if (has_columns(lines, {"name", "latitude", "longitude"}) && !has_columns(lines, {"date"})) {
    return PracticeFile::sites;
  }
  return PracticeFile::neither;
}

Diagnostics check_sites_text(std::string_view text, std::string_view file_name, const rules::PestTable& pests,
                             std::optional<Day> last) {
  Diagnostics diagnostics;
  sites::load_sites(text, file_name, pests, diagnostics, last);
  return diagnostics;
}

Diagnostics check_log_text(std::string_view text, std::string_view file_name, const journal::LogContext& context) {
  Diagnostics diagnostics;
  journal::read_log(text, file_name, context, diagnostics);
  return diagnostics;
}

Diagnostics check_actions_text(std::string_view text, std::string_view file_name, const journal::LogContext& context) {
  Diagnostics diagnostics;
  journal::read_actions(text, file_name, context, diagnostics);
  return diagnostics;
}

}  // namespace budclock::cli
