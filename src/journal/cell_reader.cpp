#include "cell_reader.hpp"

#include <budclock/core/nearest.hpp>
#include <budclock/core/spreadsheet.hpp>
#include <budclock/sites/pest_names.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace budclock::journal {
namespace {

using sites::HandCell;

const HandCell k_no_cell;

}  // namespace

std::string lower_case(std::string_view text) {
  std::string lower{text};
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

bool is_plain(std::string text) {
  std::erase_if(text, [](char c) { return c == '\n' || c == '\t'; });
  return printable(text) == text;
}

CellReader::CellReader(const sites::HandTable& table, std::string_view file, const LogContext& context,
                       Diagnostics& diagnostics)
    : table_{table}, file_{file}, context_{context}, diagnostics_{diagnostics}, dates_{table, table.column("date")} {
  for (const std::string& name : context.sites) sites_.try_emplace(lower_case(name), name);
}

void CellReader::start(const sites::HandRow& row) { row_ = &row; }

Place CellReader::place() const { return {std::string{file_}, row_->line, row_->line > 0 ? std::size_t{1} : 0}; }

const HandCell& CellReader::cell(std::string_view column) const {
  const std::size_t index = table_.column(column);
  return index == sites::HandTable::k_none ? k_no_cell : row_->cells[index];
}

void CellReader::fault(const HandCell& cell, std::string message, std::string remedy) {
  const HandCell& at = cell.line == 0 && !row_->cells.empty() ? row_->cells.front() : cell;
  diagnostics_.push_back({Severity::fault,
                          {std::string{file_}, at.line, at.column},
                          row_->line > 0 ? std::move(message) + "; the row is set aside" : std::move(message),
                          std::move(remedy)});
}

void CellReader::fault_row(std::string message, std::string remedy) {
  fault(k_no_cell, std::move(message), std::move(remedy));
}

bool CellReader::read_date(Day& day) {
  const HandCell& date = cell("date");
  const weather::DateReading reading = dates_.read(date.text);
  day = reading.day;
  const std::string quoted = fmt::format("\"{}\"", date.text);
  switch (reading.fault) {
    case weather::DateFault::none:
      if (reading.day <= context_.today) return true;
      fault(date, fmt::format("{} lies after today, {}", iso(reading.day), iso(context_.today)), "correct the date");
      return false;
    case weather::DateFault::malformed:
      fault(date, date.text.empty() ? "there is no date" : quoted + " is not a date", "write it as 2014-04-16");
      return false;
    case weather::DateFault::impossible:
      fault(date, quoted + " does not exist", "correct the date");
      return false;
    case weather::DateFault::wrong_order:
      fault(date, quoted + " can be read two ways, or not in the order of the other dates", "write it as 2014-04-16");
      return false;
    case weather::DateFault::wrong_year:
      break;
  }
  fault(date, fmt::format("the year of {} is outside {} to {}", quoted, k_first_year, k_last_year), "correct the date");
  return false;
}

bool CellReader::read_site(std::string& name) {
  const HandCell& site = cell("site");
  if (site.text.empty()) {
    fault(site, "there is no site", "name one of the sites file");
    return false;
  }
  name = unguarded_cell(site.text);
  if (context_.sites.empty()) return true;
  if (const auto known = sites_.find(lower_case(name)); known != sites_.end()) {
    name = known->second;
    return true;
  }
  auto remedy = unknown_sites_.find(site.text);
  if (remedy == unknown_sites_.end()) {
    const auto near = nearest_name(site.text, {context_.sites.begin(), context_.sites.end()});
    remedy = unknown_sites_
                 .emplace(site.text, near ? fmt::format("did you mean \"{}\"?", *near)
                                          : "write a name that stands in the sites file")
                 .first;
  }
  fault(site, fmt::format("no site is called \"{}\"", site.text), remedy->second);
  return false;
}

const rules::Pest* CellReader::read_pest(std::string& id) {
  const HandCell& name = cell("pest");
  if (const auto known = pests_.find(name.text); known != pests_.end()) {
    id = known->second->id;
    return known->second;
  }
  const auto named = sites::pests_named(context_.pests, name.text);
  if (named.size() == 1) {
    id = named.front()->id;
    pests_.emplace(name.text, named.front());
    return named.front();
  }
  if (name.text.empty()) {
    fault(name, "there is no pest", "name the one looked for");
  } else if (named.empty()) {
    fault(name, fmt::format("no pest is called \"{}\"", name.text), sites::suggest_pest(context_.pests, name.text));
  } else {
    fault(name, fmt::format("\"{}\" is a name of several pests", name.text),
          fmt::format("write {} or {}", named[0]->id, named[1]->id));
  }
  return nullptr;
}

sites::HandTable table_of_row(std::span<const std::string_view> columns, std::span<const std::string> row) {
  sites::HandTable table;
  table.rows.emplace_back();
  for (std::size_t i = 0; i < row.size(); ++i) {
    table.header.push_back({std::string{columns[i]}, 0, 0});
    table.rows[0].cells.push_back({row[i], 0, 0});
  }
  return table;
}

void sort_by_place(Diagnostics& diagnostics, std::size_t from) {
  std::stable_sort(diagnostics.begin() + static_cast<std::ptrdiff_t>(from), diagnostics.end(),
                   [](const Diagnostic& a, const Diagnostic& b) {
                     return std::pair{a.place.line, a.place.column} < std::pair{b.place.line, b.place.column};
                   });
}

}  // namespace budclock::journal
