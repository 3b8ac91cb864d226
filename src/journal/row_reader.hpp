// One row of a scouting log.
#pragma once

#include <budclock/journal/log.hpp>
#include <budclock/sites/hand_table.hpp>

#include "cell_reader.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::journal {

/// Reads the rows of one table.
class RowReader : private CellReader {
 public:
  using CellReader::CellReader;

  /// The sighting; nothing, after faults, when the row cannot be right.
  std::optional<Sighting> read(const sites::HandRow& row);

 private:
  bool read_plain_texts(Sighting& sighting);
  bool read_stage(const rules::Pest& pest, bool dated, Sighting& sighting);
  bool read_observations(const rules::Pest& pest, std::string_view column, std::vector<std::string>& ids);
  bool read_not_found(Sighting& sighting);
  bool read_count(Sighting& sighting);
  bool check_sense(const Sighting& sighting);
};

bool same_plant_and_season(const Sighting& a, const Sighting& b);

/// Takes out the sightings that put the stages of one season in an impossible order, with a fault each. They come by
/// date.
void drop_impossible_order(std::vector<Sighting>& sightings, const rules::PestTable& pests, Diagnostics& diagnostics);

}  // namespace budclock::journal
