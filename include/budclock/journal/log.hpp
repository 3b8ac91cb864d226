// From a scouting log to sightings.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/journal/sighting.hpp>
#include <budclock/rules/pest.hpp>

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::journal {

/// The columns of a scouting log, in the order in which a new one is made. date, site and pest must be there.
///   date       2014-04-16; other ways of writing a date are read where the log leaves no doubt about their order
///   site       a name from the sites file
///   pest       a name or id of a pest
///   stage      id of a stage of the pest: it was found, or looked for in vain when not_found is set
///   saw        ids of observations of the pest, separated by semicolons
///   not_saw    the same: looked for, and not there
///   not_found  yes: the stage, or without one the whole pest, was looked for and not there
///   count      "7 of 20", or "7" ("7/20" is read too, but spreadsheets take it for a date)
///   plant, by, note  free text
inline constexpr std::array<std::string_view, 11> k_log_columns{
    "date", "site", "pest", "stage", "saw", "not_saw", "not_found", "count", "plant", "by", "note"};

/// What a log is read against.
struct LogContext {
  const rules::PestTable& pests;
  std::vector<std::string> sites;  ///< names of all sites, those set aside too; empty: any name will do
  Day today;                       ///< a later date is a fault
};

/// Reads a log (CSV in any usual dialect). Rows that cannot be right are faults, named by line and column, and left
/// out: an unknown site, pest, stage or observation, a date that is none or lies ahead, a row that says nothing or
/// contradicts itself, a stage before its degree-days can begin, stages of one season in an impossible order. The
/// sightings come by date; rows of one day keep their order.
std::vector<Sighting> read_log(std::string_view text, std::string_view file_name, const LogContext& context,
                               Diagnostics& diagnostics);

/// A row to be added, one text a column of k_log_columns.
using LogRow = std::array<std::string, k_log_columns.size()>;

/// What a row says before it is added to the log whose sound rows are `log`; nothing, after faults as of `read_log`,
/// which name the column but no place. A stage may be right alone but wrong beside older rows.
std::optional<Sighting> read_row(const LogRow& row, const std::vector<Sighting>& log, const LogContext& context,
                                 Diagnostics& diagnostics);

}  // namespace budclock::journal
