// Yardstick: what this machine can do of the job at most, on one core and in flat memory. It trusts its input blindly,
// so it is a limit and no program.
// usage: limit FILE     station,date,tmax_f,tmin_f, grouped by station, dates in order
//
// A line for each station and year: the first dates on which the sum since 1 January above 50 °F reaches 200, 500 and
// 1,000 degree-days, by averaging and by the single sine, and both sums of the year.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <numbers>
#include <string>
#include <unistd.h>
#include <vector>

namespace {

constexpr double k_base = 50;
constexpr std::array k_sums{200.0, 500.0, 1000.0};

struct Method {
  double sum = 0;
  std::size_t reached = 0;
  std::array<std::array<char, 10>, k_sums.size()> dates{};

  void add(double amount, const char* date) {
    sum += amount;
    for (; reached < k_sums.size() && sum >= k_sums[reached]; ++reached) std::memcpy(dates[reached].data(), date, 10);
  }
};

double sine(double high, double low, double mean) {
  if (low >= k_base) return mean - k_base;
  if (high <= k_base) return 0;
  const double half = (high - low) / 2;
  const double angle = std::asin((k_base - mean) / half);
  return ((mean - k_base) * (std::numbers::pi / 2 - angle) + half * std::cos(angle)) / std::numbers::pi;
}

class Years {
 public:
  void add(const char* station, std::size_t length, const char* date, double high, double low) {
    if (std::memcmp(date, year_.data(), 4) != 0 || length != station_.size() ||
        std::memcmp(station, station_.data(), length) != 0) {
      end_year();
      station_.assign(station, length);
      std::memcpy(year_.data(), date, 4);
    }
    const double mean = (high + low) / 2;
    average_.add(std::max(mean - k_base, 0.0), date);
    sine_.add(sine(high, low, mean), date);
  }

  void end_year() {
    if (!station_.empty()) {
      out_.append(station_).append(1, ',').append(year_.data(), 4);
      append(average_);
      append(sine_);
      out_ += '\n';
    }
    average_ = sine_ = {};
  }

  const std::string& out() const { return out_; }

 private:
  void append(const Method& method) {
    for (std::size_t i = 0; i < k_sums.size(); ++i) {
      out_ += ',';
      if (i < method.reached) out_.append(method.dates[i].data(), 10);
    }
    std::array<char, 32> number{};
    const int length = std::snprintf(number.data(), number.size(), ",%.1f", method.sum);
    out_.append(number.data(), static_cast<std::size_t>(length));
  }

  std::string out_;
  std::string station_;
  std::array<char, 4> year_{};
  Method average_;
  Method sine_;
};

void take_rows(const char* at, const char* end, Years& years) {
  while (at < end) {
    const auto* comma = static_cast<const char*>(std::memchr(at, ',', static_cast<std::size_t>(end - at)));
    const char* date = comma + 1;
    double high = 0;
    double low = 0;
    const char* after_high = std::from_chars(date + 11, end, high).ptr;
    const char* after_low = std::from_chars(after_high + 1, end, low).ptr;
    years.add(at, static_cast<std::size_t>(comma - at), date, high, low);
    at = after_low + 1;
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  const int file = open(argv[1], O_RDONLY);
  std::vector<char> block(1 << 20);
  std::size_t held = 0;
  bool in_header = true;
  Years years;
  for (;;) {
    const ssize_t count = read(file, block.data() + held, block.size() - held);
    if (count <= 0) break;
    held += static_cast<std::size_t>(count);
    const char* begin = block.data();
    const auto* last = static_cast<const char*>(memrchr(begin, '\n', held));
    if (last == nullptr) continue;
    if (in_header) begin = static_cast<const char*>(std::memchr(begin, '\n', held)) + 1;
    in_header = false;
    take_rows(begin, last + 1, years);
    held -= static_cast<std::size_t>(last + 1 - block.data());
    std::memmove(block.data(), last + 1, held);
  }
  years.end_year();
  std::fwrite(years.out().data(), 1, years.out().size(), stdout);
}
