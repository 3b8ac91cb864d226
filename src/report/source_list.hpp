// Numbers sources in the order in which a report first names them.
#pragma once

#include <budclock/report/document.hpp>
#include <budclock/rules/pest.hpp>

#include <string>
#include <vector>

namespace budclock::report {

class SourceList {
 public:
  explicit SourceList(const rules::PestTable& table) : table_{table} {}

  /// "[3]", or "(common practice)" where no source is given.
  std::string mark(const rules::Citation& citation);
  /// The numbered list, one part a source.
  void add_to(Document& document) const;
  /// The same as plain text.
  std::string text(const TextStyle& style) const;

 private:
  const rules::PestTable& table_;
  std::vector<std::string> keys_;
};

}  // namespace budclock::report
