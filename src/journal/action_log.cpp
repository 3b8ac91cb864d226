#include <budclock/core/spreadsheet.hpp>
#include <budclock/document/object_reader.hpp>
#include <budclock/journal/action_log.hpp>
#include <budclock/rules/names.hpp>
#include <budclock/weather/value_text.hpp>

#include "cell_reader.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace budclock::journal {
namespace {

using sites::HandCell;
using weather::DayValue;

constexpr std::size_t k_first_text = 4;

const sites::TableColumns& columns() {
  static const sites::TableColumns k_columns{
      {k_action_columns.begin(), k_action_columns.end()}, {"date", "site", "pest", "action"}, ""};
  return k_columns;
}

/// Reads the rows of one table.
class ActionReader : private CellReader {
 public:
  ActionReader(const sites::HandTable& table, std::string_view file, const LogContext& context,
               Diagnostics& diagnostics)
      : CellReader{table, file, context, diagnostics}, header_{table.header} {}

  std::optional<ActionTaken> read(const sites::HandRow& row) {
    start(row);
    ActionTaken action;
    action.place = place();
    bool sound = read_texts(action);
    sound = read_date(action.date) && sound;
    sound = read_site(action.site) && sound;
    sound = read_pest(action.pest) != nullptr && sound;
    sound = read_kind(action.action) && sound;
    sound = read_value("tmin_f", "tmin_origin", action.tmin) && sound;
    sound = read_value("tmax_f", "tmax_origin", action.tmax) && sound;
    return sound ? std::optional{std::move(action)} : std::nullopt;
  }

 private:
  bool read_texts(ActionTaken& action) {
    bool sound = true;
    for (std::size_t i = 0; i < cells().size(); ++i) {
      if (is_plain(cells()[i].text)) continue;
      fault(cells()[i], fmt::format("the {} holds a control character", header_[i].text), "remove it");
      sound = false;
    }
    for (const ActionText& each : k_action_texts) action.*each.text = unguarded_cell(cell(each.column).text);
    return sound;
  }

  bool read_kind(rules::Action& kind) {
    const HandCell& text = cell("action");
    if (text.text.empty()) {
      fault(text, "there is no action", "write its kind, such as contact, oil or prune");
      return false;
    }
    std::string wanted = lower_case(text.text);
    std::replace(wanted.begin(), wanted.end(), '-', ' ');
    std::replace(wanted.begin(), wanted.end(), '_', ' ');
    std::vector<std::string_view> known;
    for (const auto& [name, value] : rules::k_action_names) {
      if (value != rules::Action::look) known.push_back(name);
      if (name != wanted) continue;
      kind = value;
      if (value != rules::Action::look) return true;
      fault(text, "to look is no action", "record what was seen in the scouting log: budclock seen");
      return false;
    }
    fault(text, fmt::format("\"{}\" is no kind of action", text.text), document::suggestion(wanted, known));
    return false;
  }

  bool read_value(std::string_view value_column, std::string_view origin_column, DayValue& value) {
    const HandCell& origin = cell(origin_column);
    const auto named = std::find_if(k_origin_names.begin(), k_origin_names.end(),
                                    [&](const auto& each) { return each.first == origin.text; });
    if (named == k_origin_names.end() && !origin.text.empty()) {
      std::vector<std::string_view> known;
      for (const auto& each : k_origin_names) known.push_back(each.first);
      fault(origin, fmt::format("the {} is none that is known", origin_column),
            document::suggestion(origin.text, known));
      return false;
    }
    const HandCell& degrees = cell(value_column);
    const weather::Cell read = weather::read_cell(degrees.text, '.');
    const bool number = read.kind == weather::CellKind::number;
    if (number) value.value = weather::temperature_of(read.hundredths, TemperatureUnit::fahrenheit);
    if (!degrees.text.empty() && (!number || value.value < weather::k_coldest || value.value > weather::k_warmest)) {
      fault(degrees, fmt::format("the {} is no temperature in degrees F", value_column), "correct it, or empty it");
      return false;
    }
    const bool needs_value = named != k_origin_names.end() && weather::has_value(named->second);
    if (needs_value == number) {
      value.origin = named == k_origin_names.end() ? weather::Origin::absent : named->second;
      return true;
    }
    fault(number ? origin : degrees, fmt::format("{} and {} do not fit", value_column, origin_column),
          "fill both, or empty both");
    return false;
  }

  const std::vector<HandCell>& header_;
};

}  // namespace

std::vector<ActionTaken> read_actions(std::string_view text, std::string_view file_name, const LogContext& context,
                                      Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.size();
  std::vector<ActionTaken> actions;
  const sites::HandTable table = sites::read_hand_table(text, file_name, columns(), diagnostics);
  if (table.rows.empty()) return actions;
  ActionReader reader{table, file_name, context, diagnostics};
  for (const sites::HandRow& row : table.rows) {
    if (auto action = reader.read(row)) actions.push_back(std::move(*action));
  }
  std::stable_sort(actions.begin(), actions.end(),
                   [](const ActionTaken& a, const ActionTaken& b) { return a.date < b.date; });
  sort_by_place(diagnostics, before);
  return actions;
}

ActionRow row_of(const ActionTaken& action) {
  const auto degrees = [](const DayValue& value) {
    return weather::has_value(value.origin) ? to_text(value.value, TemperatureUnit::fahrenheit, 2) : std::string{};
  };
  ActionRow row{iso(action.date), action.site, action.pest, std::string{rules::name(action.action)}};
  std::size_t at = k_first_text;
  for (const ActionText& each : k_action_texts) row[at++] = action.*each.text;
  row[at++] = degrees(action.tmin);
  row[at++] = origin_name(action.tmin.origin);
  row[at++] = degrees(action.tmax);
  row[at] = origin_name(action.tmax.origin);
  return row;
}

std::optional<ActionTaken> read_action(const ActionRow& row, const LogContext& context, Diagnostics& diagnostics) {
  const sites::HandTable table = table_of_row(k_action_columns, row);
  return ActionReader{table, "", context, diagnostics}.read(table.rows[0]);
}

AppendResult append_action(const std::string& path, const ActionRow& row) {
  static constexpr std::array<std::string_view, 12> k_free_text{"site",    "product",    "registration", "amount",
                                                                "area",    "plants",     "applicator",   "licence",
                                                                "reentry", "preharvest", "notice",       "note"};
  static constexpr std::array<std::string_view, 4> k_weather{"tmin_f", "tmin_origin", "tmax_f", "tmax_origin"};
  return append_row(path, {k_action_columns, k_free_text, k_weather}, row);
}

}  // namespace budclock::journal
