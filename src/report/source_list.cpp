#include "source_list.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace budclock::report {

std::string SourceList::mark(const rules::Citation& citation) {
  if (citation.source.empty()) return "(common practice)";
  auto found = std::find(keys_.begin(), keys_.end(), citation.source);
  if (found == keys_.end()) found = keys_.insert(keys_.end(), citation.source);
  return fmt::format("[{}]", found - keys_.begin() + 1);
}

void SourceList::add_to(Document& document) const {
  for (std::size_t i = 0; i < keys_.size(); ++i) {
    const rules::Source* source = table_.find_source(keys_[i]);
    std::string entry = fmt::format("{} {}. {}.", source->author, source->year, source->title);
    if (!source->in.empty()) entry += fmt::format(" {}.", source->in);
    if (!source->locator.empty()) entry += fmt::format(" {}", source->locator);
    document.push_back({PartKind::source, std::move(entry), fmt::format("[{}]", i + 1)});
  }
}

std::string SourceList::text(const TextStyle& style) const {
  Document document;
  add_to(document);
  return as_text(document, style);
}

}  // namespace budclock::report
