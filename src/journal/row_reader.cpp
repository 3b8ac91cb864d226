#include "row_reader.hpp"

#include <budclock/core/spreadsheet.hpp>
#include <budclock/document/object_reader.hpp>
#include <budclock/sites/pest_names.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <fmt/format.h>

namespace budclock::journal {
namespace {

using sites::HandCell;

constexpr int k_most_samples = 1'000'000;

std::optional<int> number_in(std::string_view text) {
  text = weather::trimmed(text);
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool sound = error == std::errc{} && end == text.data() + text.size() && value >= 0 && value <= k_most_samples;
  return sound ? std::optional{value} : std::nullopt;
}

std::optional<Share> share_in(std::string_view text) {
  constexpr std::string_view k_of = " of ";
  const std::size_t of = text.find(k_of);
  const std::size_t slash = text.find('/');
  if (of == std::string_view::npos && slash == std::string_view::npos) {
    const auto found = number_in(text);
    return found ? std::optional{Share{*found, std::nullopt}} : std::nullopt;
  }
  const bool word = of != std::string_view::npos;
  const auto found = number_in(text.substr(0, word ? of : slash));
  const auto all = number_in(text.substr(word ? of + k_of.size() : slash + 1));
  if (!found || !all || *all == 0 || *found > *all) return std::nullopt;
  return Share{*found, all};
}

/// The first day of the year on which the stage can begin, where all that dates it are degree-days from a start date.
std::optional<MonthDay> earliest_start(const rules::Pest& pest, const rules::Stage& stage) {
  std::optional<MonthDay> earliest;
  const auto take = [&earliest](MonthDay start) {
    if (!earliest || start < *earliest) earliest = start;
  };
  for (const rules::Trigger& trigger : stage.begins) {
    if (trigger.use != rules::Use::date) continue;
    const auto* cue = std::get_if<rules::DegreeDayCue>(&trigger.cue);
    const rules::Count* count = cue == nullptr ? nullptr : rules::find_count(pest, cue->count);
    if (count == nullptr) return std::nullopt;
    take(count->start.value);
    for (const MonthDay other : count->start.alternatives) take(other);
  }
  return earliest;
}

}  // namespace

std::optional<Sighting> RowReader::read(const sites::HandRow& row) {
  start(row);
  Sighting sighting;
  sighting.place = place();
  bool sound = read_plain_texts(sighting);
  const bool dated = read_date(sighting.date);
  sound = read_site(sighting.site) && sound && dated;
  if (const rules::Pest* pest = read_pest(sighting.pest)) {
    sighting.hosts = sites::hosts_on(pest_table(), *pest, sighting.plant);
    sound = read_observations(*pest, "saw", sighting.saw) && sound;
    sound = read_observations(*pest, "not_saw", sighting.not_saw) && sound;
    sound = read_not_found(sighting) && sound;
    sound = read_count(sighting) && sound;
    sound = read_stage(*pest, dated, sighting) && sound;
    sound = sound && check_sense(sighting);
  } else {
    sound = false;
  }
  return sound ? std::optional{std::move(sighting)} : std::nullopt;
}

bool RowReader::read_plain_texts(Sighting& sighting) {
  bool sound = true;
  for (const HandCell& each : cells()) {
    if (is_plain(each.text)) continue;
    fault(each, fmt::format("\"{}\" holds a control character", each.text), "remove it");
    sound = false;
  }
  sighting.plant = unguarded_cell(cell("plant").text);
  sighting.by = unguarded_cell(cell("by").text);
  sighting.note = unguarded_cell(cell("note").text);
  return sound;
}

bool RowReader::read_stage(const rules::Pest& pest, bool dated, Sighting& sighting) {
  const HandCell& text = cell("stage");
  if (text.text.empty()) return true;
  const std::string wanted = lower_case(text.text);
  std::vector<std::string_view> known;
  for (const rules::Stage& stage : pest.stages) {
    known.push_back(stage.id);
    if (stage.id != wanted && lower_case(stage.name) != wanted) continue;
    sighting.stage = stage.id;
    const auto start = earliest_start(pest, stage);
    if (sighting.not_found || !dated || !start || month_day_of(sighting.date) >= *start) return true;
    fault(text,
          fmt::format("\"{}\" cannot be found on {}: its degree-days begin on {}", stage.name, iso(sighting.date),
                      iso(*start)),
          "correct the date or the stage");
    return false;
  }
  fault(text, fmt::format("{} has no stage \"{}\"", pest.name, text.text), document::suggestion(text.text, known));
  return false;
}

bool RowReader::read_observations(const rules::Pest& pest, std::string_view column, std::vector<std::string>& ids) {
  const HandCell& list = cell(column);
  std::vector<std::string_view> known;
  for (const rules::Observation& observation : pest.observations) known.push_back(observation.id);
  bool sound = true;
  std::string_view rest = list.text;
  for (bool more = !rest.empty(); more;) {
    const std::size_t end = rest.find_first_of(";,");
    const std::string id = lower_case(weather::trimmed(rest.substr(0, end)));
    more = end != std::string_view::npos;
    if (more) rest.remove_prefix(end + 1);
    if (id.empty()) continue;
    if (rules::find_observation(pest, id) == nullptr) {
      fault(list, fmt::format("{} has no observation \"{}\"", pest.name, id), document::suggestion(id, known));
      sound = false;
    }
    ids.push_back(id);
  }
  return sound;
}

bool RowReader::read_not_found(Sighting& sighting) {
  constexpr std::array<std::string_view, 5> k_yes{"yes", "y", "true", "x", "1"};
  constexpr std::array<std::string_view, 5> k_no{"", "no", "n", "false", "0"};
  const HandCell& text = cell("not_found");
  const std::string word = lower_case(text.text);
  sighting.not_found = std::find(k_yes.begin(), k_yes.end(), word) != k_yes.end();
  if (sighting.not_found || std::find(k_no.begin(), k_no.end(), word) != k_no.end()) return true;
  fault(text, fmt::format("not_found is \"{}\"", text.text), "write yes, or leave it empty");
  return false;
}

bool RowReader::read_count(Sighting& sighting) {
  const HandCell& text = cell("count");
  if (text.text.empty()) return true;
  sighting.count = share_in(text.text);
  if (sighting.count) return true;
  const bool date = weather::split_date(text.text).has_value() || text.text.find('-') != std::string::npos;
  fault(text, fmt::format("\"{}\" is no count", text.text),
        date ? "write it as 7 of 20; a spreadsheet takes 7/20 for a date" : "write it as 7 of 20, or as 7");
  return false;
}

bool RowReader::check_sense(const Sighting& sighting) {
  for (const std::string& id : sighting.saw) {
    if (std::find(sighting.not_saw.begin(), sighting.not_saw.end(), id) == sighting.not_saw.end()) continue;
    fault(cell("not_saw"), fmt::format("\"{}\" stands both under saw and not_saw", id), "remove it from one of them");
    return false;
  }
  const bool something = sighting.count && sighting.count->found > 0;
  if (something && sighting.not_found) {
    fault(cell("count"), fmt::format("{} were counted of what was not found", sighting.count->found),
          "empty one of count and not_found");
    return false;
  }
  if (sighting.count && !something && !sighting.not_found) {
    fault(cell("count"), "none were counted, yet not_found is empty", "write yes under not_found, or empty the count");
    return false;
  }
  if (!sighting.stage.empty() || !sighting.saw.empty() || !sighting.not_saw.empty() || sighting.not_found ||
      something) {
    return true;
  }
  fault_row("the row says nothing of what was seen", "fill stage, saw, not_saw, not_found or count");
  return false;
}

}  // namespace budclock::journal
