// One site out of a tree, whether it came from JSON or from a row of a table.
#pragma once

#include <budclock/document/object_reader.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/sites/load.hpp>

#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace budclock::sites {

/// Reads the sites of a list, one after the other, into `sites`.
class SiteReader {
 public:
  /// Nothing can have been noted after `last`; `limits` are the firm's own, of all sites.
  SiteReader(std::string_view file, const rules::PestTable& pests, Diagnostics& diagnostics, std::optional<Day> last,
             std::vector<rules::OwnLimit> limits)
      : file_{file}, pests_{pests}, diagnostics_{diagnostics}, last_{last}, limits_{std::move(limits)} {}

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
  void read_safety_facts(document::ObjectReader& reader, Site& site);
  void read_contact(document::ObjectReader& reader, Site& site);
  Place place_of(const document::JsonNode& node) const { return {std::string{file_}, node.line, node.column}; }

  std::string_view file_;
  const rules::PestTable& pests_;
  Diagnostics& diagnostics_;
  std::optional<Day> last_;
  std::vector<rules::OwnLimit> limits_;
  SiteList list_;
};

/// The rows of a CSV table.
struct SiteRows {
  std::vector<document::JsonNode> trees;  ///< as the reader takes them, one a row
  std::vector<std::size_t> unread;        ///< lines of the rows that could not be split
};
SiteRows read_site_rows(std::string_view text, std::string_view file_name, Diagnostics& diagnostics);

}  // namespace budclock::sites
