#include <budclock/weather/cf6_reader.hpp>
#include <budclock/weather/forecast_json_reader.hpp>
#include <budclock/weather/ghcn_dly_reader.hpp>
#include <budclock/weather/gzip_source.hpp>
#include <budclock/weather/layout.hpp>
#include <budclock/weather/nws_text.hpp>
#include <budclock/weather/peeked_source.hpp>
#include <budclock/weather/reader.hpp>
#include <budclock/weather/refusal.hpp>
#include <budclock/weather/table_reader.hpp>
#include <budclock/weather/uscrn_reader.hpp>

#include <fmt/format.h>

namespace budclock::weather {
namespace {

/// The layouts that the start of a file tells, asked from the top down. What none of them knows is read as a table.
constexpr Layout k_layouts[] = {
    {is_ghcn_dly, read_ghcn_dly}, {is_uscrn_daily, read_uscrn_daily}, {is_uscrn_hourly, read_uscrn_hourly},
    {is_cf6, read_cf6},           {is_nws_text, refuse_nws_text},     {is_json, read_forecast_json},
};

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
    {"\x1F\x8B", "this file is compressed twice with gzip", "unpack it once"},
    {"\xFF\xFE", "the text is in UTF-16", "save it as UTF-8"},
    {"\xFE\xFF", "the text is in UTF-16", "save it as UTF-8"},
};

/// An error when the first bytes are not those of a text file.
bool is_text(std::string_view start, ProblemList& problems) {
  constexpr std::size_t k_looked_at = 512;
  for (const Signature& signature : k_signatures) {
    if (!start.starts_with(signature.bytes)) continue;
    problems.add(Severity::error, 0, 0, signature.message, signature.remedy);
    return false;
  }
  if (start.substr(0, k_looked_at).find('\0') == std::string_view::npos) return true;
  problems.add(Severity::error, 0, 0, "this is a binary file, not text", "give a CSV file with one row a day");
  return false;
}

FileSummary read_text(PeekedSource& file, ProblemList& problems, const ReadOptions& options,
                      const StationHandler& on_station, ThreadPool* pool) {
  constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";
  std::string_view start = file.start();
  if (start.starts_with(k_byte_order_mark)) start.remove_prefix(k_byte_order_mark.size());
  if (start.empty()) {
    problems.add(Severity::error, 0, 0, "the file is empty",
                 "give a file with a header line such as date,tmax_f,tmin_f and one row a day");
    return {};
  }
  if (!is_text(start, problems)) return {};
  for (const Layout& layout : k_layouts) {
    if (layout.recognise(start)) return layout.read(file, problems, options, on_station);
  }
  RowSplitter rows{file};
  return read_table(rows, problems, options, on_station, pool);
}

/// An error when the packed data did not give the whole file.
void report_fault(const GzipSource& unpacked, ProblemList& problems) {
  const auto report = [&](const char* what, const char* remedy) {
    problems.add(Severity::error, 0, 0,
                 fmt::format("{} after {} unpacked bytes, so the record is not whole", what, unpacked.unpacked()),
                 remedy);
  };
  switch (unpacked.fault()) {
    case GzipFault::none:
      return;
    case GzipFault::cut_off:
      return report("the gzip data are cut off", "get the file again");
    case GzipFault::damaged:
      return report("the gzip data are damaged", "get the file again");
    case GzipFault::foreign:
      return report("the gzip data are followed by something else", "get the file again, or unpack it and look");
  }
}

FileSummary read_gzip(PeekedSource& packed, ProblemList& problems, const ReadOptions& options,
                      const StationHandler& on_station, ThreadPool* pool) {
  GzipSource unpacked{packed};
  PeekedSource file{unpacked};
  FileSummary summary;
  if (!file.start().empty() || unpacked.fault() == GzipFault::none) {
    summary = read_text(file, problems, options, on_station, pool);
    if (!summary.layout.empty()) summary.layout += ", gzip";
  }
  report_fault(unpacked, problems);
  return summary;
}

}  // namespace

FileSummary read_weather(ByteSource& source, std::string_view file_name, const ReadOptions& options,
                         const StationHandler& on_station, ThreadPool* pool) {
  ProblemList problems{file_name};
  PeekedSource file{source};
  FileSummary summary = is_gzip(file.start()) ? read_gzip(file, problems, options, on_station, pool)
                                              : read_text(file, problems, options, on_station, pool);
  refuse_mostly_faulty(summary, options, problems);
  summary.diagnostics = problems.take();
  return summary;
}

}  // namespace budclock::weather
