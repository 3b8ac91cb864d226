// JSON text as all our reports write it.
#pragma once

#include <budclock/core/sink.hpp>

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace budclock::report {

/// Indented text with a final newline. Bytes that are not UTF-8 (a site's name from a careless file) become U+FFFD,
/// where the library's default would throw.
std::string json_text(const nlohmann::ordered_json& json);

/// The same without indents or line breaks, but for the newline at its end.
std::string json_line(const nlohmann::ordered_json& json);

/// The same as `json_text` of an object whose last members are arrays, without holding their elements all at once.
class JsonStream {
 public:
  /// `head` is an object with the members before the arrays, at least one.
  JsonStream(const nlohmann::ordered_json& head, const Sink& out);
  void begin_array(std::string_view name);
  void add(const nlohmann::ordered_json& element);
  void finish();

 private:
  void end_array();

  const Sink& out_;
  enum class In : std::uint8_t { head, empty_array, array } in_ = In::head;
};

}  // namespace budclock::report
