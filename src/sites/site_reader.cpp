#include "site_reader.hpp"

#include <budclock/sites/pest_names.hpp>

#include "plain_text.hpp"
#include "safety_reader.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace budclock::sites {
namespace {

using document::Faults;
using document::JsonNode;
using document::NamedValue;
using document::ObjectReader;
using document::Presence;
using weather::DateOrder;
using Kind = JsonNode::Kind;

constexpr std::array<NamedValue<TemperatureUnit>, 2> k_units{
    {{"F", TemperatureUnit::fahrenheit}, {"C", TemperatureUnit::celsius}}};
constexpr std::array<NamedValue<DateOrder>, 3> k_date_orders{
    {{"mdy", DateOrder::month_day_year}, {"dmy", DateOrder::day_month_year}, {"ymd", DateOrder::year_month_day}}};
constexpr std::array<NamedValue<ReadTime>, 2> k_read_times{
    {{"midnight", ReadTime::as_dated}, {"morning", ReadTime::morning}}};
constexpr std::array<NamedValue<GapPolicy>, 2> k_gap_policies{
    {{"refuse", GapPolicy::refuse}, {"fill", GapPolicy::fill}}};

// The shore of the Dead Sea and the top of Mount Everest, rounded outwards.
constexpr double k_lowest_m = -440;
constexpr double k_highest_m = 8850;
// A garden that differs more from its station needs another station.
constexpr double k_most_offset_c = 10;
constexpr double k_most_offset_f = 18;

std::string plain_text(ObjectReader& reader, std::string_view key, Presence presence = Presence::optional) {
  std::string text = reader.text(key, presence);
  if (!text.empty()) is_plain(*reader.node().find(key), text, reader.faults());
  return text;
}

bool is_listed(const std::vector<std::string>& list, const std::string& text) {
  return std::find(list.begin(), list.end(), text) != list.end();
}

}  // namespace

void SiteReader::read(const JsonNode& node, bool faulty) {
  const std::size_t before = diagnostics_.size();
  Faults faults{std::string{file_}, diagnostics_};
  Site site = read_site(node, faults);
  // The other sites are answered, so what is wrong with this one is a fault, not an error.
  for (std::size_t i = before; i < diagnostics_.size(); ++i) {
    diagnostics_[i].severity = std::min(diagnostics_[i].severity, Severity::fault);
  }
  if (faults.count() == 0 && !faulty) {
    list_.sites.push_back(std::move(site));
  } else {
    list_.set_aside.push_back({std::move(site.name), std::move(site.place)});
  }
}

Site SiteReader::read_site(const JsonNode& node, Faults& faults) {
  ObjectReader reader{node, faults};
  Site site;
  site.place = place_of(node);
  read_name(reader, site);
  read_place(reader, site);
  read_weather(reader, site);
  read_plants(reader, site);
  if (const JsonNode* pests = reader.member("pests", Kind::object, Presence::optional)) {
    ObjectReader lists{*pests, faults};
    site.watch = read_pests(lists, "watch");
    site.mute = read_pests(lists, "mute");
    lists.finish();
    check_watched(*pests, site, faults);
  }
  read_safety_facts(reader, site);
  read_contact(reader, site);
  reader.finish();
  return site;
}

void SiteReader::read_name(ObjectReader& reader, Site& site) {
  site.name = plain_text(reader, "name", Presence::required);
  if (site.name.empty()) return;
  const JsonNode& node = *reader.node().find("name");
  if (site.name.front() == ' ' || site.name.back() == ' ') {
    reader.faults().add(node, fmt::format("the name \"{}\" begins or ends with a space", site.name), "remove it");
  }
  if (const Site* same = find_site(list_.sites, site.name)) {
    reader.faults().add(node,
                        fmt::format("the name \"{}\" stands twice, first on line {}", site.name, same->place.line),
                        "give each site its own name");
  }
}

void SiteReader::read_place(ObjectReader& reader, Site& site) {
  const JsonNode* node = reader.member("place", Kind::object);
  if (node == nullptr) return;
  ObjectReader place{*node, reader.faults()};
  site.latitude = place.number("latitude", -90, 90).value_or(0);
  site.longitude = place.number("longitude", -180, 180).value_or(0);
  site.elevation_m = place.number("elevation_m", k_lowest_m, k_highest_m, Presence::optional);
  place.finish();
}

void SiteReader::read_weather(ObjectReader& reader, Site& site) {
  const JsonNode* node = reader.member("weather", Kind::object);
  if (node == nullptr) return;
  ObjectReader weather{*node, reader.faults()};
  const auto& sources = weather.items("sources");
  if (const JsonNode* list = node->find("sources"); list != nullptr && list->kind == Kind::array && sources.empty()) {
    reader.faults().add(*list, "no weather source is named", "add one with its \"files\"");
  }
  for (const JsonNode& source : sources) site.weather.sources.push_back(read_source(source, reader.faults()));
  site.weather.gaps = weather.choice("gaps", k_gap_policies, Presence::optional);
  site.weather.forecasts = read_files(weather, "forecasts", Presence::optional);
  weather.finish();
}

WeatherSource SiteReader::read_source(const JsonNode& node, Faults& faults) {
  ObjectReader reader{node, faults};
  WeatherSource source;
  source.files = read_files(reader, "files", Presence::required);
  if (const JsonNode* list = node.find("files"); list != nullptr && list->kind == Kind::array && list->items.empty()) {
    faults.add(*list, "no weather file is named", "add one");
  }
  source.units = reader.choice("units", k_units, Presence::optional);
  source.date_order = reader.choice("date_order", k_date_orders, Presence::optional);
  source.station = plain_text(reader, "station");
  if (const JsonNode* columns = reader.member("columns", Kind::object, Presence::optional)) {
    ObjectReader names{*columns, faults};
    source.columns = {plain_text(names, "date"), plain_text(names, "tmax"), plain_text(names, "tmin")};
    names.finish();
  }
  const auto celsius = reader.number("offset_c", -k_most_offset_c, k_most_offset_c, Presence::optional);
  const auto fahrenheit = reader.number("offset_f", -k_most_offset_f, k_most_offset_f, Presence::optional);
  if (celsius) source.offset = TemperatureDifference::celsius(*celsius);
  if (fahrenheit) source.offset = TemperatureDifference::fahrenheit(*fahrenheit);
  if (celsius && fahrenheit) faults.add(node, "the offset is given in two units", "remove one of them");
  source.station_elevation_m = reader.number("station_elevation_m", k_lowest_m, k_highest_m, Presence::optional);
  source.read_time = reader.choice("read_time", k_read_times, Presence::optional);
  reader.finish();
  return source;
}

std::vector<FilePattern> SiteReader::read_files(ObjectReader& reader, std::string_view key, Presence presence) {
  std::vector<FilePattern> files;
  for (const JsonNode& item : reader.items(key, presence)) {
    std::string text = document::text_of(item, reader.faults());
    if (text.empty()) continue;
    is_plain(item, text, reader.faults());
    files.push_back({std::move(text), place_of(item)});
  }
  return files;
}

void SiteReader::read_plants(ObjectReader& reader, Site& site) {
  for (const JsonNode& item : reader.items("plants", Presence::optional)) {
    std::string plant = document::text_of(item, reader.faults());
    if (plant.empty()) continue;
    is_plain(item, plant, reader.faults());
    if (is_listed(site.plants, plant)) {
      reader.faults().add(item, fmt::format("\"{}\" stands twice in this list", plant), "remove one of them");
    }
    if (const std::string host = misspelt_host(pests_, plant); !host.empty()) {
      // A fault, not a note: with the plant its pests are left out of every answer.
      diagnostics_.push_back({Severity::fault, place_of(item), fmt::format("no pest here lives on \"{}\"", plant),
                              fmt::format("did you mean \"{}\"?", host)});
    }
    site.plants.push_back(std::move(plant));
  }
}

std::vector<std::string> SiteReader::read_pests(ObjectReader& reader, std::string_view key) {
  std::vector<std::string> ids;
  for (const JsonNode& item : reader.items(key, Presence::optional)) {
    const std::string name = document::text_of(item, reader.faults());
    if (name.empty()) continue;
    const auto named = pests_named(pests_, name);
    if (named.empty()) {
      reader.faults().add(item, fmt::format("no pest is called \"{}\"", name), suggest_pest(pests_, name));
    }
    for (const rules::Pest* pest : named) {
      if (is_listed(ids, pest->id)) {
        reader.faults().add(item, fmt::format("{} stands twice in this list", pest->name), "remove one of them");
      } else {
        ids.push_back(pest->id);
      }
    }
  }
  return ids;
}

void SiteReader::check_watched(const JsonNode& node, const Site& site, Faults& faults) {
  for (const std::string& id : site.watch) {
    if (!is_listed(site.mute, id)) continue;
    faults.add(node, fmt::format("{} is to be watched and muted", pests_.find_pest(id)->name),
               "remove it from one of the lists");
  }
}

void SiteReader::read_safety_facts(ObjectReader& reader, Site& site) {
  if (const JsonNode* node = reader.member("safety", Kind::object, Presence::optional)) {
    ObjectReader facts{*node, reader.faults()};
    site.safety = read_safety(facts, {pests_, site.plants, last_});
  }
  site.limits = limits_;
  for (rules::OwnLimit& own : read_limits(reader, pests_)) site.limits.push_back(std::move(own));
}

void SiteReader::read_contact(ObjectReader& reader, Site& site) {
  const JsonNode* node = reader.member("contact", Kind::object, Presence::optional);
  if (node == nullptr) return;
  for (const JsonNode::Member& member : node->members) {
    std::string text = document::text_of(member.value, reader.faults());
    if (!text.empty()) site.contact.emplace_back(member.key, std::move(text));
  }
}

}  // namespace budclock::sites
