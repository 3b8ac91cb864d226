// What the readers of the parts of a rule file share.
#pragma once

#include <budclock/document/object_reader.hpp>
#include <budclock/rules/pest.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::rules {

using document::Faults;
using document::JsonNode;
using document::ObjectReader;
using document::Presence;

/// One pest file while it is read: the parts read so far and what its references may name.
struct Reading {
  Faults& faults;
  const PestTable& known;  ///< sources and cautions are complete, pests are not
  Pest& pest;
  std::vector<std::string> stage_ids;    ///< of the whole file, as a stage may name a later one
  std::vector<std::string> trigger_ids;  ///< of the triggers read so far
};

/// The id of an entry: lower-case words joined by hyphens, not in `taken`.
std::string read_id(ObjectReader& entry, const std::vector<std::string>& taken);

/// Whether `id` has the form of an id.
bool is_id(std::string_view id);

/// A fault unless `id` is one of `known`; `what` names the kind of thing, such as "count".
void check_reference(const JsonNode& node, const std::string& id, std::string_view what,
                     const std::vector<std::string>& known, Faults& faults);

/// The text member `key` as a reference to one of `known`.
std::string read_reference(ObjectReader& entry, std::string_view key, std::string_view what,
                           const std::vector<std::string>& known, Presence presence = Presence::required);

/// The list member `key` as references to some of `known`.
std::vector<std::string> read_references(ObjectReader& entry, std::string_view key, std::string_view what,
                                         const std::vector<std::string>& known, Presence presence);

/// A number as printed ("1,010", "39.2"): its text and its value, within [low, high].
struct Printed {
  std::string text;
  std::optional<double> value;
};
Printed read_printed(ObjectReader& entry, std::string_view key, double low, double high,
                     Presence presence = Presence::required);

/// A temperature as printed, to a hundredth of a degree.
std::optional<Temperature> read_temperature(ObjectReader& entry, std::string_view key, TemperatureUnit unit,
                                            std::string& printed, Presence presence = Presence::required);

TemperatureUnit read_unit(ObjectReader& entry);

/// "MM-DD"; nothing after a fault.
std::optional<MonthDay> month_day_of(const JsonNode& node, Faults& faults);

/// The member "citation". An absent optional one is common practice.
Citation read_citation(ObjectReader& entry, const PestTable& known, Presence presence = Presence::required);

/// A statement with its source.
Remark read_remark(const JsonNode& node, const PestTable& known, Faults& faults);

/// The ids of a list of entries.
template <class T>
std::vector<std::string> ids_of(const std::vector<T>& entries) {
  std::vector<std::string> ids;
  for (const T& entry : entries) ids.push_back(entry.id);
  return ids;
}

std::vector<std::string> caution_ids(const PestTable& known);

/// The counts a file defines in its member "counts".
std::vector<Count> read_counts(ObjectReader& owner, Presence presence);

/// A degree-day figure made with one of `counts`.
DegreeDayCue read_degree_days(const JsonNode& node, const std::vector<Count>& counts, Faults& faults);

/// A calendar range; without "to", a single day.
CalendarCue read_calendar(const JsonNode& node, Faults& faults);

// The parts of a pest file, each added to `reading.pest`.
void read_stages(ObjectReader& pest, Reading& reading);
void read_windows(ObjectReader& pest, Reading& reading);

/// A whole file. After a fault the result is incomplete.
Pest read_pest(const JsonNode& root, const PestTable& known, Faults& faults);
std::vector<Companion> read_companions(const JsonNode& root, const PestTable& known, Faults& faults);
std::vector<Source> read_sources(const JsonNode& root, Faults& faults);
std::vector<Region> read_regions(const JsonNode& root, Faults& faults);
std::vector<DayLimit> read_day_limits(const JsonNode& root, const PestTable& known, Faults& faults);
/// The rules, and in `bee_plants` the names that may be given as in bloom.
std::vector<SiteRule> read_site_rules(const JsonNode& root, const PestTable& known,
                                      std::vector<std::string>& bee_plants, Faults& faults);
std::vector<Caution> read_cautions(const JsonNode& root, const PestTable& known, Faults& faults);

}  // namespace budclock::rules
