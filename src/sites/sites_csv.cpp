#include <budclock/sites/hand_table.hpp>
#include <budclock/weather/value_text.hpp>

#include "site_reader.hpp"

#include <charconv>
#include <cmath>
#include <utility>

namespace budclock::sites {
namespace {

using document::JsonNode;
using Kind = JsonNode::Kind;

constexpr std::string_view k_contact = "contact_";

const TableColumns k_columns{
    {"name",       "latitude",    "longitude",    "elevation_m", "weather",       "station",   "units",
     "date_order", "date_column", "tmax_column",  "tmin_column", "offset_c",      "offset_f",  "station_elevation_m",
     "read_time",  "gaps",        "forecasts",    "plants",      "watch",         "mute",      "state",
     "water",      "in_bloom",    "due_to_bloom", "hives",       "oil_sensitive", "predators", "children_or_pets",
     "soil",       "drought",     "limits"},
    {"name", "latitude", "longitude", "weather"},
    k_contact};

/// The number a cell holds. A comma is a decimal mark only where it is not the delimiter.
std::optional<double> number_in(std::string text, char delimiter) {
  const std::size_t comma = text.find(',');
  if (delimiter != ',' && comma != std::string::npos) text[comma] = '.';
  double value = 0;
  const char* const end = text.data() + text.size();
  const auto [stopped, error] = std::from_chars(text.data(), end, value);
  if (error != std::errc{} || stopped != end || !std::isfinite(value)) return std::nullopt;
  return value;
}

/// Makes a row into the tree that a site in a JSON file has. A node's pointer is the name of its column.
class RowTree {
 public:
  RowTree(const HandTable& table, const HandRow& row) : table_{table}, row_{row} {}

  JsonNode build() const {
    JsonNode site = object("the row");
    add(site, "name", text("name"));
    JsonNode place = object("the row");
    for (const char* key : {"latitude", "longitude", "elevation_m"}) add(place, key, number(key));
    add(site, "place", std::move(place));
    add(site, "weather", weather());
    add(site, "plants", list("plants"));
    JsonNode pests = object("the row");
    add(pests, "watch", list("watch"));
    add(pests, "mute", list("mute"));
    add(site, "pests", std::move(pests));
    add(site, "safety", safety());
    add(site, "limits", list("limits"));
    add(site, "contact", contact());
    return site;
  }

 private:
  JsonNode weather() const {
    JsonNode source = object("the row");
    add(source, "files", list("weather").value_or(empty_list("weather")));
    for (const char* key : {"station", "units", "date_order", "read_time"}) add(source, key, text(key));
    for (const char* key : {"offset_c", "offset_f", "station_elevation_m"}) add(source, key, number(key));
    JsonNode columns = object("the row");
    add(columns, "date", text("date_column"));
    add(columns, "tmax", text("tmax_column"));
    add(columns, "tmin", text("tmin_column"));
    add(source, "columns", std::move(columns));

    JsonNode sources = object("weather");
    sources.kind = Kind::array;
    sources.items.push_back(std::move(source));
    JsonNode weather = object("the row");
    add(weather, "sources", std::move(sources));
    add(weather, "gaps", text("gaps"));
    add(weather, "forecasts", list("forecasts"));
    return weather;
  }

  std::optional<JsonNode> safety() const {
    JsonNode facts = object("the row");
    for (const char* key : {"state", "water", "hives", "children_or_pets", "soil", "drought"}) {
      add(facts, key, text(key));
    }
    for (const char* key : {"in_bloom", "due_to_bloom", "oil_sensitive", "predators"}) add(facts, key, list(key));
    return facts;
  }

  JsonNode contact() const {
    JsonNode fields = object("the row");
    for (std::size_t i = 0; i < table_.header.size(); ++i) {
      const std::string& name = table_.header[i].text;
      if (name.starts_with(k_contact)) add(fields, name.substr(k_contact.size()), text(name));
    }
    return fields;
  }

  JsonNode object(std::string_view pointer) const {
    JsonNode node = at(row_.cells.front(), pointer);
    node.kind = Kind::object;
    return node;
  }

  /// Of a column that is there, so that messages name it, and not the member it stands for.
  JsonNode empty_list(std::string_view column) const {
    JsonNode node = at(row_.cells[table_.column(column)], column);
    node.kind = Kind::array;
    return node;
  }

  static JsonNode at(const HandCell& cell, std::string_view pointer) {
    JsonNode node;
    node.line = cell.line;
    node.column = cell.column;
    node.pointer = pointer;
    return node;
  }

  /// The cell of a column; null when the column is absent or the cell empty, so that the member is absent.
  const HandCell* cell(std::string_view column) const {
    const std::size_t index = table_.column(column);
    return index == HandTable::k_none || row_.cells[index].text.empty() ? nullptr : &row_.cells[index];
  }

  std::optional<JsonNode> text(std::string_view column) const {
    const HandCell* found = cell(column);
    if (found == nullptr) return std::nullopt;
    JsonNode node = at(*found, column);
    node.kind = Kind::string;
    node.text = found->text;
    return node;
  }

  std::optional<JsonNode> number(std::string_view column) const {
    auto node = text(column);
    const auto value = node ? number_in(node->text, table_.delimiter) : std::nullopt;
    if (!value) return node;
    node->kind = Kind::number;
    node->number = *value;
    return node;
  }

  std::optional<JsonNode> list(std::string_view column) const {
    const HandCell* found = cell(column);
    if (found == nullptr) return std::nullopt;
    JsonNode node = at(*found, column);
    node.kind = Kind::array;
    std::string_view rest = found->text;
    for (bool more = true; more;) {
      const std::size_t end = rest.find(';');
      const std::string_view part = weather::trimmed(rest.substr(0, end));
      if (!part.empty()) {
        JsonNode& item = node.items.emplace_back(at(*found, column));
        item.kind = Kind::string;
        item.text = part;
      }
      more = end != std::string_view::npos;
      if (more) rest.remove_prefix(end + 1);
    }
    return node;
  }

  static void add(JsonNode& object, std::string_view key, std::optional<JsonNode> value) {
    if (!value) return;
    JsonNode::Member member{std::string{key}, value->line, value->column, std::move(*value)};
    object.members.push_back(std::move(member));
  }

  const HandTable& table_;
  const HandRow& row_;
};

}  // namespace

SiteRows read_site_rows(std::string_view text, std::string_view file_name, Diagnostics& diagnostics) {
  HandTable table = read_hand_table(text, file_name, k_columns, diagnostics);
  SiteRows rows;
  for (const HandRow& row : table.rows) rows.trees.push_back(RowTree{table, row}.build());
  rows.unread = std::move(table.unread);
  return rows;
}

}  // namespace budclock::sites
