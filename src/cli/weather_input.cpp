#include "weather_input.hpp"

#include <budclock/weather/byte_source.hpp>
#include <budclock/weather/merge.hpp>
#include <budclock/weather/reader.hpp>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <istream>
#include <memory>
#include <system_error>
#include <unistd.h>
#include <vector>

namespace budclock::cli {
namespace {

/// A file descriptor that closes itself.
class OpenFile {
 public:
  explicit OpenFile(const std::string& path) : descriptor_{::open(path.c_str(), O_RDONLY | O_CLOEXEC)} {}
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile() {
    if (descriptor_ >= 0) ::close(descriptor_);
  }
  int get() const { return descriptor_; }

 private:
  int descriptor_;
};

std::string station_list(const std::vector<weather::StationRecord>& stations) {
  std::vector<std::string> ids;
  for (const auto& station : stations) ids.push_back(station.id);
  return fmt::format("{}", fmt::join(ids, ", "));
}

/// Reads one file; exactly one station must come out of it.
std::optional<weather::StationRecord> read_file(const std::string& path, const weather::ReadOptions& options,
                                                Environment& environment, Diagnostics& diagnostics) {
  const std::string name = path == "-" ? "standard input" : path;
  const auto fail = [&](std::string message, std::string remedy) {
    diagnostics.push_back({Severity::error, {name}, std::move(message), std::move(remedy)});
    return std::nullopt;
  };
  std::vector<weather::StationRecord> stations;
  const auto keep = [&](weather::StationRecord&& station) { stations.push_back(std::move(station)); };
  weather::FileSummary summary;
  try {
    if (path == "-") {
      weather::StreamSource source{environment.in};
      summary = weather::read_weather(source, name, options, keep);
    } else {
      const OpenFile file{path};
      if (file.get() < 0) {
        return fail(fmt::format("cannot be opened ({})", std::strerror(errno)),
                    "check the path; pests are named before --weather");
      }
      weather::DescriptorSource source{file.get()};
      summary = weather::read_weather(source, name, options, keep);
    }
  } catch (const std::system_error& failure) {
    return fail(fmt::format("cannot be read ({})", failure.code().message()), "check the file and the disk");
  }
  diagnostics.insert(diagnostics.end(), summary.diagnostics.begin(), summary.diagnostics.end());
  if (stations.size() > 1) {
    return fail(fmt::format("holds {} stations: {}", stations.size(), station_list(stations)),
                "choose one with --station");
  }
  if (stations.empty()) {
    if (!any_at_least(summary.diagnostics, Severity::error)) {
      return fail(options.station.empty() ? "has no days" : fmt::format("has no station {}", options.station),
                  "check the file with `budclock tally`");
    }
    return std::nullopt;
  }
  return std::move(stations.front());
}

}  // namespace

std::optional<SiteRecord> read_site_record(const WeatherOptions& options, Environment& environment,
                                           Diagnostics& diagnostics) {
  std::optional<SiteRecord> site;
  for (const std::string& path : options.files) {
    auto station = read_file(path, options.read, environment, diagnostics);
    if (!station) continue;
    if (!site) {
      const std::string stem = path == "-" ? "standard input" : std::filesystem::path{path}.stem().string();
      site = SiteRecord{std::move(station->days), station->id.empty() ? stem : station->id};
    } else {
      weather::fill_from(site->days, station->days);
    }
  }
  if (site && site->days.last() > environment.today) {
    // A record cannot hold tomorrow: most likely a year was mistyped.
    const auto days = (site->days.last() - environment.today).count();
    diagnostics.push_back(
        {Severity::fault,
         {options.files.front()},
         fmt::format("holds days up to {}, {} days in the future; they are set aside", iso(site->days.last()), days),
         "correct the year of those rows, or give a forecast apart from the record"});
    site->days = weather::until(site->days, environment.today);
  }
  if (site && site->days.empty()) site.reset();
  return site;
}

void print(const Diagnostics& diagnostics, Environment& environment, bool notes) {
  for (const Diagnostic& diagnostic : diagnostics) {
    if (notes || diagnostic.severity > Severity::note) environment.err << to_text(diagnostic) << '\n';
  }
}

ExitStatus answered_with(const Diagnostics& diagnostics) {
  return any_at_least(diagnostics, Severity::fault) ? ExitStatus::set_aside : ExitStatus::answered;
}

}  // namespace budclock::cli
