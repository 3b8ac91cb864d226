#include <budclock/weather/reader.hpp>
#include <budclock/weather/table_reader.hpp>

#include <algorithm>

namespace budclock::weather {
namespace {

struct Signature {
  std::string_view bytes;
  const char* message;
  const char* remedy;
};

/// Files that people take for text and that are not, by their first bytes.
constexpr Signature k_signatures[] = {
    {"PK\x03\x04", "this is a spreadsheet workbook or a zip archive, not text", "save the sheet as CSV"},
    {"\xD0\xCF\x11\xE0", "this is a spreadsheet workbook, not text", "save the sheet as CSV"},
    {"%PDF", "this is a PDF document, not text", "get the data as CSV"},
    {"\x1F\x8B", "this file is compressed with gzip", "unpack it first"},
    {"\xFF\xFE", "the text is in UTF-16", "save it as UTF-8"},
    {"\xFE\xFF", "the text is in UTF-16", "save it as UTF-8"},
};

/// An error when the first bytes are not those of a text file.
bool is_text(std::string_view start, ProblemList& problems) {
  for (const Signature& signature : k_signatures) {
    if (!start.starts_with(signature.bytes)) continue;
    problems.add(Severity::error, 0, 0, signature.message, signature.remedy);
    return false;
  }
  if (start.find('\0') == std::string_view::npos) return true;
  problems.add(Severity::error, 0, 0, "this is a binary file, not text", "give a CSV file with one row a day");
  return false;
}

}  // namespace

FileSummary read_weather(ByteSource& source, std::string_view file_name, const ReadOptions& options,
                         const std::function<void(StationRecord&&)>& on_station) {
  constexpr std::size_t k_looked_at = 512;
  ProblemList problems{file_name};
  RowSplitter rows{source};
  FileSummary summary;
  if (rows.peek(1).empty()) {
    problems.add(Severity::error, 0, 0, "the file is empty",
                 "give a file with a header line such as date,tmax_f,tmin_f and one row a day");
  } else if (is_text(rows.peek(k_looked_at), problems)) {
    summary = read_table(rows, problems, options, on_station);
  }
  summary.diagnostics = problems.take();
  return summary;
}

}  // namespace budclock::weather
