#include "shell_words.hpp"

#include <cstddef>

namespace budclock::cli {
namespace {

constexpr std::string_view k_blanks = " \t\n";

bool is_plain(char c) {
  const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
  const bool outside_ascii = static_cast<unsigned char>(c) >= 0x80;
  return letter || (c >= '0' && c <= '9') || outside_ascii ||
         std::string_view{"_./,+@%-"}.find(c) != std::string_view::npos;
}

}  // namespace

ShellLine split_shell_line(std::string_view line, std::string_view breaks, std::string_view home) {
  ShellLine result;
  std::string word;
  bool in_word = false;
  const auto end_word = [&] {
    if (in_word) result.words.push_back(word);
    word.clear();
    result.kept.clear();
    in_word = false;
  };
  for (std::size_t at = 0; at < line.size(); ++at) {
    const char c = line[at];
    const bool next = at + 1 < line.size();
    if (result.quote == Quote::single) {
      if (c == '\'')
        result.quote = Quote::none;
      else
        word += c;
    } else if (result.quote == Quote::twice) {
      const bool escape =
          c == '\\' && next && std::string_view{"\\\"$`\n"}.find(line[at + 1]) != std::string_view::npos;
      if (c == '"')
        result.quote = Quote::none;
      else
        word += escape ? line[++at] : c;
    } else if (k_blanks.find(c) != std::string_view::npos) {
      end_word();
    } else if (c == '\'' || c == '"') {
      in_word = true;
      result.quote = static_cast<Quote>(c);
      result.kept = word;
    } else {
      const bool home_follows = c == '~' && !in_word && (!next || line[at + 1] == '/');
      in_word = true;
      if (home_follows)
        word += home;
      else if (c != '\\')
        word += c;
      else if (next)
        word += line[++at];
      if (c != '\\' && breaks.find(c) != std::string_view::npos) result.kept = word;
    }
  }
  result.words.push_back(word);
  return result;
}

std::string quoted_for_shell(std::string_view text, Quote quote) {
  std::string typed;
  for (const char c : text) {
    if (quote == Quote::single) {
      typed += c == '\'' ? std::string{"'\\''"} : std::string{c};
    } else if (quote == Quote::twice && c == '!') {
      typed += "\"\\!\"";  // inside of double quotes nothing keeps ! from calling up an older line
    } else if (quote == Quote::twice) {
      if (std::string_view{"\\\"$`"}.find(c) != std::string_view::npos) typed += '\\';
      typed += c;
    } else {
      if (!is_plain(c)) typed += '\\';
      typed += c;
    }
  }
  return typed;
}

}  // namespace budclock::cli
