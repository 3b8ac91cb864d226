// One row of a scouting log.
#pragma once

#include <budclock/journal/log.hpp>
#include <budclock/sites/hand_table.hpp>

#include "date_column.hpp"

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::journal {

/// Reads the rows of one table.
class RowReader {
 public:
  RowReader(const sites::HandTable& table, std::string_view file, const LogContext& context, Diagnostics& diagnostics);

  /// The sighting; nothing, after faults, when the row cannot be right.
  std::optional<Sighting> read(const sites::HandRow& row);

 private:
  /// A cell, and whether it was given.
  const sites::HandCell& cell(std::string_view column) const;
  void fault(const sites::HandCell& cell, std::string message, std::string remedy);
  bool read_plain_texts(Sighting& sighting);
  bool read_date(Sighting& sighting);
  bool read_site(Sighting& sighting);
  const rules::Pest* read_pest(Sighting& sighting);
  bool read_stage(const rules::Pest& pest, bool dated, Sighting& sighting);
  bool read_observations(const rules::Pest& pest, std::string_view column, std::vector<std::string>& ids);
  bool read_not_found(Sighting& sighting);
  bool read_count(Sighting& sighting);
  bool check_sense(const Sighting& sighting);

  const sites::HandTable& table_;
  std::string_view file_;
  const LogContext& context_;
  Diagnostics& diagnostics_;
  DateColumn dates_;
  std::map<std::string, std::string, std::less<>> sites_;         ///< by name in small letters
  std::map<std::string, const rules::Pest*, std::less<>> pests_;  ///< those named by earlier rows, as written there
  const sites::HandRow* row_ = nullptr;
};

bool same_plant_and_season(const Sighting& a, const Sighting& b);

/// Takes out the sightings that put the stages of one season in an impossible order, with a fault each. They come by
/// date.
void drop_impossible_order(std::vector<Sighting>& sightings, const rules::PestTable& pests, Diagnostics& diagnostics);

}  // namespace budclock::journal
