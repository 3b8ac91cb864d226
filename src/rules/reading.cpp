#include "reading.hpp"

#include <budclock/rules/names.hpp>

#include <algorithm>
#include <charconv>
#include <fmt/format.h>

namespace budclock::rules {
namespace {

using Kind = JsonNode::Kind;

constexpr std::array<document::NamedValue<TemperatureUnit>, 2> k_unit_names{
    {{"F", TemperatureUnit::fahrenheit}, {"C", TemperatureUnit::celsius}}};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// `text` without thousands commas ("1,010" -> "1010"); unchanged when its commas are not thousands commas.
std::string without_thousands(const std::string& text) {
  const std::size_t whole_end = std::min(text.find('.'), text.size());
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool thousands =
        text[i] == ',' && i > 0 && is_digit(text[i - 1]) && i < whole_end && (whole_end - i) % 4 == 0;
    if (!thousands) plain += text[i];
  }
  return plain;
}

std::optional<double> number_in(const std::string& text) {
  const bool digits_only = text.find_first_not_of("-.0123456789") == std::string::npos;
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (!digits_only || error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::vector<std::string_view> views(const std::vector<std::string>& texts) { return {texts.begin(), texts.end()}; }

}  // namespace

bool is_id(std::string_view id) {
  const auto ok = [](char c) { return (c >= 'a' && c <= 'z') || is_digit(c) || c == '-'; };
  return !id.empty() && std::all_of(id.begin(), id.end(), ok) && id.front() != '-' && id.back() != '-';
}

std::string read_id(ObjectReader& entry, const std::vector<std::string>& taken) {
  std::string id = entry.text("id");
  if (id.empty()) return id;
  const JsonNode& node = *entry.node().find("id");
  if (!is_id(id)) {
    entry.faults().add(node, fmt::format("\"{}\" is no id", id), "use lower-case letters, digits and hyphens only");
  }
  if (std::find(taken.begin(), taken.end(), id) != taken.end()) {
    entry.faults().add(node, fmt::format("the id \"{}\" stands twice", id), "give each its own");
  }
  return id;
}

void check_reference(const JsonNode& node, const std::string& id, std::string_view what,
                     const std::vector<std::string>& known, Faults& faults) {
  if (std::find(known.begin(), known.end(), id) != known.end()) return;
  const std::string remedy =
      known.empty() ? fmt::format("no {} is defined", what) : document::suggestion(id, views(known));
  faults.add(node, fmt::format("there is no {} \"{}\"", what, id), remedy);
}

std::string read_reference(ObjectReader& entry, std::string_view key, std::string_view what,
                           const std::vector<std::string>& known, Presence presence) {
  std::string id = entry.text(key, presence);
  if (!id.empty()) check_reference(*entry.node().find(key), id, what, known, entry.faults());
  return id;
}

std::vector<std::string> read_references(ObjectReader& entry, std::string_view key, std::string_view what,
                                         const std::vector<std::string>& known, Presence presence) {
  std::vector<std::string> ids;
  for (const JsonNode& item : entry.items(key, presence)) {
    std::string id = document::text_of(item, entry.faults());
    if (id.empty()) continue;
    check_reference(item, id, what, known, entry.faults());
    if (std::find(ids.begin(), ids.end(), id) != ids.end()) {
      entry.faults().add(item, fmt::format("\"{}\" stands twice in this list", id), "remove one of them");
    }
    ids.push_back(std::move(id));
  }
  return ids;
}

Printed read_printed(ObjectReader& entry, std::string_view key, double low, double high, Presence presence) {
  Printed printed{entry.text(key, presence), std::nullopt};
  if (printed.text.empty()) return printed;
  const JsonNode& node = *entry.node().find(key);
  printed.value = number_in(without_thousands(printed.text));
  if (!printed.value) {
    entry.faults().add(node, fmt::format("\"{}\" is no number", printed.text),
                       "write one number as printed, such as \"179\" or \"1,010\"; two for a range are two triggers");
  } else if (*printed.value < low || *printed.value > high) {
    entry.faults().add(node, fmt::format("{} is out of range", printed.text),
                       fmt::format("write a number from {} to {}", low, high));
    printed.value.reset();
  }
  return printed;
}

std::optional<Temperature> read_temperature(ObjectReader& entry, std::string_view key, TemperatureUnit unit,
                                            std::string& printed, Presence presence) {
  // Thresholds of development and soil temperatures lie well inside; a wrong unit often does not.
  const bool fahrenheit = unit == TemperatureUnit::fahrenheit;
  Printed read = read_printed(entry, key, fahrenheit ? -20 : -30, fahrenheit ? 120 : 50, presence);
  printed = std::move(read.text);
  if (!read.value) return std::nullopt;
  return Temperature::in(unit, *read.value);
}

TemperatureUnit read_unit(ObjectReader& entry) {
  return entry.choice("unit", k_unit_names).value_or(TemperatureUnit::fahrenheit);
}

std::optional<MonthDay> month_day_of(const JsonNode& node, Faults& faults) {
  const std::string text = document::text_of(node, faults);
  if (text.empty()) return std::nullopt;
  const auto day = parse_month_day(text);
  if (!day) faults.add(node, fmt::format("\"{}\" is no day of the year", text), "write month-day, such as \"03-01\"");
  return day;
}

Citation read_citation(ObjectReader& entry, const PestTable& known, Presence presence) {
  Citation citation;
  citation.grade = Grade::common_practice;
  const JsonNode* node = entry.member("citation", Kind::object, presence);
  if (node == nullptr) return citation;

  ObjectReader reader{*node, entry.faults()};
  std::vector<std::string> keys;
  for (const Source& source : known.sources) keys.push_back(source.key);
  citation.source = read_reference(reader, "source", "source", keys, Presence::optional);
  citation.where = reader.text("where", Presence::optional);
  citation.region = reader.text("region", Presence::optional);
  citation.note = reader.text("note", Presence::optional);
  const bool graded = node->find("grade") != nullptr;
  citation.grade = reader.choice("grade", k_grade_names, Presence::optional).value_or(Grade::seen);
  reader.finish();

  const bool sourced = node->find("source") != nullptr;
  if (!sourced && (!graded || citation.grade != Grade::common_practice)) {
    entry.faults().add(*node, "no source is named", "add \"source\", or \"grade\": \"common practice\"");
  }
  if (sourced && citation.grade == Grade::common_practice) {
    entry.faults().add(*node, "common practice has no source", "grade it \"seen\" or \"quoted\", or remove the source");
  }
  return citation;
}

Remark read_remark(const JsonNode& node, const PestTable& known, Faults& faults) {
  ObjectReader reader{node, faults};
  Remark remark{reader.text("text"), read_citation(reader, known)};
  reader.finish();
  return remark;
}

std::vector<std::string> caution_ids(const PestTable& known) { return ids_of(known.cautions); }

}  // namespace budclock::rules
