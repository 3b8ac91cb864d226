// From an action log to actions, and back.
#pragma once

#include <budclock/journal/action.hpp>
#include <budclock/journal/append.hpp>
#include <budclock/journal/log.hpp>

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::journal {

/// The columns of an action log, in the order in which a new one is made. date, site, pest and action must be there.
///   date       2014-04-16, or another way of writing a date, as in a scouting log
///   site       a name from the sites file
///   pest       a name or id of a pest
///   action     a kind of action of the pest files, except to look: "contact", "soil systemic"
///   product to note   free text, those of k_action_texts
///   tmin_f, tmax_f    degrees F of that day at the site's station; empty: the record has none
///   tmin_origin, tmax_origin   one of k_origin_names
inline constexpr std::array<std::string_view, 19> k_action_columns{
    "date", "site",   "pest",        "action",  "product",    "registration", "amount",
    "area", "plants", "applicator",  "licence", "reentry",    "preharvest",   "notice",
    "note", "tmin_f", "tmin_origin", "tmax_f",  "tmax_origin"};

/// Reads a log (CSV in any usual dialect). Rows that cannot be right are faults, named by line and column, and left
/// out: an unknown site, pest or kind of action, a date that is none or lies ahead, a temperature that is none. No
/// message quotes what was typed from a label. The actions come by date; rows of one day keep their order.
std::vector<ActionTaken> read_actions(std::string_view text, std::string_view file_name, const LogContext& context,
                                      Diagnostics& diagnostics);

/// A row to be added, one text a column of k_action_columns.
using ActionRow = std::array<std::string, k_action_columns.size()>;

/// The row for an action, as it is to be written.
ActionRow row_of(const ActionTaken& action);

/// What a row says before it is added; nothing, after faults as of `read_actions`, which name the column but no place.
std::optional<ActionTaken> read_action(const ActionRow& row, const LogContext& context, Diagnostics& diagnostics);

/// `append_row` for an action log. A row that differs in its temperatures alone is there already.
AppendResult append_action(const std::string& path, const ActionRow& row);

}  // namespace budclock::journal
