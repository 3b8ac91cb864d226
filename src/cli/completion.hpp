// What may follow in a command line that is being typed.
#pragma once

#include "shell_words.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace budclock::cli {

enum class CompletionShell : std::uint8_t { bash, zsh };

/// What a place in a command line takes.
enum class Takes : std::uint8_t {
  words,  ///< one of `Completion::choices`, or anything where there are none
  files,
  folders,
  sites,         ///< the names of the sites file
  pests,         ///< the ids of the pest table
  plants,        ///< the hosts of the pest table
  stages,        ///< the ids of the stages of `Completion::pest`
  observations,  ///< the ids of what a scout can record of it
};

/// A word that may stand there, and what it is.
struct CompletionChoice {
  std::string word;
  std::string help;
};

struct Completion {
  Takes takes = Takes::words;
  std::vector<CompletionChoice> choices;
  std::string typed;        ///< of the value so far
  std::string before;       ///< what stands before the value in its word: "--site=", or "csv," in a list
  std::string sites_file;   ///< as given on the line; empty: looked for
  std::string pest_folder;  ///< as given on the line
  std::string pest;         ///< as given on the line
};

/// A completion, and how the shell that asks wants it.
struct CompleteOptions {
  CompletionShell shell = CompletionShell::bash;
  Completion completion;
  Quote quote = Quote::none;  ///< bash: see ShellLine
  std::string kept;           ///< bash: see ShellLine
};

}  // namespace budclock::cli
