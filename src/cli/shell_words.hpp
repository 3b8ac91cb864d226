// The words of a command line that is being typed in bash, read as bash would but with nothing carried out: no
// variable, command or pattern is expanded. And the way back: text as it must be typed to mean itself.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace budclock::cli {

/// What surrounds the place where the typing stands.
enum class Quote : char { none = 0, single = '\'', twice = '"' };

struct ShellLine {
  std::vector<std::string> words;  ///< as the program would get them; the last is the one being typed, often empty
  Quote quote = Quote::none;       ///< open at the end of the line
  /// The beginning of the last word that the shell leaves alone when it puts in what was chosen: it replaces only what
  /// follows an open quote, or else the last character that parts words for it.
  std::string kept;
};

/// `line` up to the cursor; `breaks`: the characters at which the shell begins a new word to complete
/// (COMP_WORDBREAKS); `home`: what a leading ~/ stands for.
ShellLine split_shell_line(std::string_view line, std::string_view breaks, std::string_view home);

/// `text` as it is typed inside of an open quote, or outside of any.
std::string quoted_for_shell(std::string_view text, Quote quote);

}  // namespace budclock::cli
