#include <budclock/rules/dose.hpp>
#include <budclock/rules/load.hpp>

#include "reading.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace budclock::rules {
namespace {

enum class FileKind { pest, companions, sources, cautions, regions, day_limits, site_rules };

constexpr std::array<document::NamedValue<FileKind>, 7> k_schemas{{{"budclock/pest/1", FileKind::pest},
                                                                   {"budclock/companions/1", FileKind::companions},
                                                                   {"budclock/sources/1", FileKind::sources},
                                                                   {"budclock/cautions/1", FileKind::cautions},
                                                                   {"budclock/regions/1", FileKind::regions},
                                                                   {"budclock/day-limits/1", FileKind::day_limits},
                                                                   {"budclock/site-safety/1", FileKind::site_rules}}};

/// A file that is JSON of a known kind.
struct ParsedFile {
  std::string_view name;
  FileKind kind = FileKind::pest;
  JsonNode root;
};

/// What no text of a rule file may hold.
void refuse_texts(const JsonNode& node, Faults& faults) {
  if (node.kind == JsonNode::Kind::string) {
    if (printable(node.text) != node.text) faults.add(node, "a control character stands here", "remove it");
    if (const auto dose = find_dose(node.text)) {
      faults.add(node, fmt::format("\"{}\" reads as a dose", *dose), "leave amounts to the product's label");
    }
  }
  for (const JsonNode& item : node.items) refuse_texts(item, faults);
  for (const JsonNode::Member& member : node.members) refuse_texts(member.value, faults);
}

/// The file's tree and kind; nothing when it is no JSON or of no known kind.
std::optional<ParsedFile> parse(const RuleFile& file, Diagnostics& found) {
  auto root = document::parse_json(file.text, file.name, found);
  if (!root) return std::nullopt;
  Faults faults{std::string{file.name}, found};
  ObjectReader reader{*root, faults};
  const auto kind = reader.choice("schema", k_schemas);
  if (!kind) return std::nullopt;
  refuse_texts(*root, faults);
  return ParsedFile{file.name, *kind, std::move(*root)};
}

/// Adds entries to a table; an entry of the same key is replaced.
template <class T>
void merge(std::vector<T>& table, std::vector<T> entries, std::string T::*key) {
  for (T& entry : entries) {
    const auto same = [&](const T& old) { return old.*key == entry.*key; };
    const auto old = std::find_if(table.begin(), table.end(), same);
    if (old == table.end()) {
      table.push_back(std::move(entry));
    } else {
      *old = std::move(entry);
    }
  }
}

template <class T>
void sort_by(std::vector<T>& entries, std::string T::*key) {
  std::stable_sort(entries.begin(), entries.end(), [&](const T& a, const T& b) { return a.*key < b.*key; });
}

/// Reads one parsed file into the table, if it is sound.
void read_into(PestTable& table, const ParsedFile& file, Diagnostics& found) {
  Faults faults{std::string{file.name}, found};
  switch (file.kind) {
    case FileKind::sources: {
      std::vector<Source> sources = read_sources(file.root, faults);
      if (found.empty()) merge(table.sources, std::move(sources), &Source::key);
      break;
    }
    case FileKind::cautions: {
      std::vector<Caution> cautions = read_cautions(file.root, table, faults);
      if (found.empty()) merge(table.cautions, std::move(cautions), &Caution::id);
      break;
    }
    case FileKind::regions: {
      std::vector<Region> regions = read_regions(file.root, faults);
      if (found.empty()) merge(table.regions, std::move(regions), &Region::name);
      break;
    }
    case FileKind::pest: {
      std::vector<Pest> pests{read_pest(file.root, table, faults)};
      if (found.empty()) merge(table.pests, std::move(pests), &Pest::id);
      break;
    }
    case FileKind::day_limits: {
      std::vector<DayLimit> limits = read_day_limits(file.root, table, faults);
      if (found.empty()) merge(table.day_limits, std::move(limits), &DayLimit::id);
      break;
    }
    case FileKind::site_rules: {
      std::vector<std::string> plants;
      std::vector<SiteRule> rules = read_site_rules(file.root, table, plants, faults);
      if (!found.empty()) break;
      merge(table.site_rules, std::move(rules), &SiteRule::id);
      table.bee_plants.insert(table.bee_plants.end(), plants.begin(), plants.end());
      break;
    }
    case FileKind::companions: {
      std::vector<Companion> companions = read_companions(file.root, table, faults);
      if (found.empty()) merge(table.companions, std::move(companions), &Companion::id);
      break;
    }
  }
}

bool stands_before(const Diagnostic& a, const Diagnostic& b) {
  return std::pair{a.place.line, a.place.column} < std::pair{b.place.line, b.place.column};
}

}  // namespace

PestTable load(const std::vector<RuleFile>& files, Diagnostics& diagnostics, PestTable table) {
  std::vector<Diagnostics> found(files.size());
  std::vector<std::optional<ParsedFile>> parsed;
  for (std::size_t i = 0; i < files.size(); ++i) parsed.push_back(parse(files[i], found[i]));

  for (const FileKind kind : {FileKind::sources, FileKind::cautions, FileKind::regions, FileKind::pest,
                              FileKind::companions, FileKind::day_limits, FileKind::site_rules}) {
    for (std::size_t i = 0; i < files.size(); ++i) {
      if (parsed[i] && parsed[i]->kind == kind) read_into(table, *parsed[i], found[i]);
    }
  }
  sort_by(table.pests, &Pest::id);
  sort_by(table.companions, &Companion::name);
  sort_by(table.sources, &Source::key);
  sort_by(table.cautions, &Caution::id);
  for (Diagnostics& of_file : found) {
    std::stable_sort(of_file.begin(), of_file.end(), stands_before);
    diagnostics.insert(diagnostics.end(), of_file.begin(), of_file.end());
  }
  return table;
}

}  // namespace budclock::rules
