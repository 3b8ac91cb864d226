// What is wrong with a sites file, a scouting log or an action log, told from its content.
#pragma once

#include <budclock/journal/action_log.hpp>
#include <budclock/journal/log.hpp>
#include <budclock/sites/load.hpp>

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace budclock::cli {

enum class PracticeFile : std::uint8_t { sites, log, actions, neither };

/// So many bytes of a file tell what it is.
inline constexpr std::size_t k_enough_to_tell = 16'384;

/// What a file is by its content, whatever its name: JSON that names our schema of sites files or has a member
/// "sites"; a table whose header has name, latitude and longitude; or one whose header has date, site and pest, and in
/// an action log also action.
PracticeFile practice_file(std::string_view text);

/// Every fault of a sites file with its line, column, JSON pointer and remedy; notes among them. No file is opened.
Diagnostics check_sites_text(std::string_view text, std::string_view file_name, const rules::PestTable& pests,
                             std::optional<Day> last = {});

/// Every fault of a scouting log with its line, column and remedy. Without sites in `context` any site's name will do.
Diagnostics check_log_text(std::string_view text, std::string_view file_name, const journal::LogContext& context);

/// The same of an action log.
Diagnostics check_actions_text(std::string_view text, std::string_view file_name, const journal::LogContext& context);

}  // namespace budclock::cli
