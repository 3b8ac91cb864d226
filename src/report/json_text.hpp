// JSON text as all our reports write it.
#pragma once

#include <budclock/core/sink.hpp>

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace budclock::report {

/// Indented text with a final newline. Bytes that are not UTF-8 (a site's name from a careless file) become U+FFFD,
/// where the library's default would throw.
std::string json_text(const nlohmann::ordered_json& json);

/// The same without indents or line breaks, but for the newline at its end.
std::string json_line(const nlohmann::ordered_json& json);

/// The same as `json_text` of an object whose last member is an array, without holding its elements all at once.
class JsonStream {
 public:
  /// `head` is an object with the members before `array`, at least one.
  JsonStream(const nlohmann::ordered_json& head, std::string_view array, const Sink& out);
  void add(const nlohmann::ordered_json& element);
  void finish();

 private:
  const Sink& out_;
  bool any_ = false;
};

}  // namespace budclock::report
