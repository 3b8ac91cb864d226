#include <budclock/weather/line_reader.hpp>
#include <budclock/weather/nws_text.hpp>
#include <budclock/weather/value_text.hpp>

namespace budclock::weather {
namespace {

struct Kind {
  std::string_view words;  ///< stand in its first lines
  const char* message;
  const char* remedy;
};

constexpr Kind k_kinds[] = {
    {"CLIMATE REPORT", "this is the Weather Service's climate report of one day, not a record",
     "get the monthly text (CF6) or a daily CSV of the station"},
    {"MOS GUIDANCE", "this is the Weather Service's MOS guidance, which is not read",
     "get the forecast as JSON from the Weather Service's interface"},
    {" GUIDANCE ", "this is the Weather Service's blend guidance (NBM), which is not read",
     "get the forecast as JSON from the Weather Service's interface"},
};
constexpr Kind k_other{"", "this is a text of the Weather Service, but not one with daily temperatures",
                       "get the monthly text (CF6) or a daily CSV of the station"};

constexpr int k_lines_looked_at = 12;

bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// "CDUS41 KILN 230547": what is sent, by whom, day and time (WMO No. 386, abbreviated heading).
bool is_heading(std::string_view line) {
  constexpr std::string_view k_pattern = "AAAA00 AAAA 000000";
  if (line.size() < k_pattern.size()) return false;
  for (std::size_t i = 0; i < k_pattern.size(); ++i) {
    const bool fits = k_pattern[i] == 'A'   ? is_capital(line[i])
                      : k_pattern[i] == '0' ? is_digit(line[i])
                                            : line[i] == ' ';
    if (!fits) return false;
  }
  return true;
}

/// Goes through the first lines; the kind whose words stand there, k_other for a mere heading, else nothing.
const Kind* kind_of(ByteSource& source) {
  LineReader lines{source};
  const Kind* found = nullptr;
  for (int i = 0; i < k_lines_looked_at && lines.next(); ++i) {
    const std::string_view line = trimmed(lines.text());
    if (is_heading(line)) found = &k_other;
    for (const Kind& kind : k_kinds) {
      if (found != nullptr && line.find(kind.words) != std::string_view::npos) return &kind;
    }
  }
  return found;
}

}  // namespace

bool is_nws_text(std::string_view start) {
  MemorySource source{start};
  return kind_of(source) != nullptr;
}

FileSummary refuse_nws_text(ByteSource& source, ProblemList& problems, const ReadOptions&, const StationHandler&) {
  const Kind* const kind = kind_of(source);
  const Kind& told = kind == nullptr ? k_other : *kind;
  problems.add(Severity::error, 0, 0, told.message, told.remedy);
  return {};
}

}  // namespace budclock::weather
