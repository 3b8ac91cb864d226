// Times the weather reader: rows a second over whole files, the diagnostics counted.
// usage: bench_weather_read [--units F|C] [--print] FILE...
#include <budclock/weather/reader.hpp>

#include <chrono>
#include <fcntl.h>
#include <fmt/format.h>
#include <string_view>
#include <unistd.h>

using namespace budclock;

namespace {

void read_one(const char* path, const weather::ReadOptions& options, bool print) {
  const int descriptor = ::open(path, O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return fmt::print("{}: cannot open\n", path);
  weather::DescriptorSource source{descriptor};
  std::size_t days = 0;
  std::size_t usable = 0;
  const auto count = [&](weather::StationRecord&& record) {
    days += record.days.size();
    for (std::size_t i = 0; i < record.days.size(); ++i) usable += record.days.complete(i) ? 1 : 0;
  };
  const auto begin = std::chrono::steady_clock::now();
  const weather::FileSummary summary = weather::read_weather(source, path, options, count);
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
  ::close(descriptor);
  fmt::print("{}: {}, {} stations, {} rows, {} days, {} usable, {} diagnostics, {:.4f} s, {:.2f} M rows/s\n", path,
             summary.layout, summary.stations, summary.rows, days, usable, summary.diagnostics.size(), taken.count(),
             static_cast<double>(summary.rows) / taken.count() / 1e6);
  if (!print) return;
  for (const Diagnostic& entry : summary.diagnostics) fmt::print("  {}\n", to_text(entry));
}

}  // namespace

int main(int argc, char** argv) {
  weather::ReadOptions options;
  bool print = false;
  for (int i = 1; i < argc; ++i) {
    const std::string_view argument = argv[i];
    if (argument == "--print") {
      print = true;
    } else if (argument == "--units" && i + 1 < argc) {
      options.units = *argv[++i] == 'C' ? TemperatureUnit::celsius : TemperatureUnit::fahrenheit;
    } else {
      read_one(argv[i], options, print);
    }
  }
}
