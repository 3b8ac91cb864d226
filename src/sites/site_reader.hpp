// One site out of a tree, whether it came from JSON or from a row of a table.
#pragma once

#include <budclock/document/object_reader.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/sites/load.hpp>

#include <optional>
#include <string_view>

namespace budclock::sites {

/// Reads the sites of a list, one after the other, into `sites`.
class SiteReader {
 public:
  SiteReader(std::string_view file, const rules::PestTable& pests, Diagnostics& diagnostics)
      : file_{file}, pests_{pests}, diagnostics_{diagnostics} {}

  /// Adds the site, or sets it aside when it has a fault or `faulty` says that one was found before.
  void read(const document::JsonNode& node, bool faulty);

  SiteList take() { return std::move(list_); }

 private:
  Site read_site(const document::JsonNode& node, document::Faults& faults);
  void read_name(document::ObjectReader& reader, Site& site);
  void read_place(document::ObjectReader& reader, Site& site);
  void read_weather(document::ObjectReader& reader, Site& site);
  WeatherSource read_source(const document::JsonNode& node, document::Faults& faults);
  std::vector<FilePattern> read_files(document::ObjectReader& reader, std::string_view key,
                                      document::Presence presence);
  void read_plants(document::ObjectReader& reader, Site& site);
  std::vector<std::string> read_pests(document::ObjectReader& reader, std::string_view key);
  void check_watched(const document::JsonNode& node, const Site& site, document::Faults& faults);
  void read_contact(document::ObjectReader& reader, Site& site);
  Place place_of(const document::JsonNode& node) const { return {std::string{file_}, node.line, node.column}; }

  std::string_view file_;
  const rules::PestTable& pests_;
  Diagnostics& diagnostics_;
  SiteList list_;
};

/// The sites of a CSV table as trees that the reader takes, one a row.
std::vector<document::JsonNode> rows_as_trees(std::string_view text, std::string_view file_name,
                                              Diagnostics& diagnostics);

}  // namespace budclock::sites
