// What a broken JSON text should have held.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace budclock::document {

/// How far a JSON text was sound.
struct SoundPart {
  enum class Inside { nothing, array, object };
  enum class Last { nothing, open, key, value };

  std::size_t end = 0;              ///< offset just after the last sound token
  Inside inside = Inside::nothing;  ///< the innermost list or object that is still open
  std::size_t opened = 0;           ///< the line on which it opened
  Last last = Last::nothing;        ///< what the last sound token was
};

/// A syntax error: where it stands, what is wrong and what to do.
struct SyntaxError {
  std::size_t offset = 0;
  std::string message;
  std::string remedy;
};

/// Explains why `text` is no JSON past its sound part; `parser_offset` is the byte at which the parser gave up, which
/// tells the place of a fault inside a string.
SyntaxError explain_syntax_error(std::string_view text, const SoundPart& sound, std::size_t parser_offset);

}  // namespace budclock::document
