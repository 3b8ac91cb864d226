// What a nightly run reads of earlier runs: states and digests.
#include <budclock/report/digest.hpp>
#include <budclock/rules/load.hpp>

#include "fuzz.hpp"

#include <cstdlib>

using namespace budclock;

namespace {

void demand(bool held) {
  if (!held) std::abort();
}

std::string rewritten(const report::WrittenState& state) {
  std::string text = report::state_head(state.today(), state.problems());
  for (const std::string& name : state.names()) text += report::state_line(name, *state.site(name));
  return text;
}

}  // namespace

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view text{reinterpret_cast<const char*>(data), size};
  static const rules::PestTable table = [] {
    Diagnostics none;
    return rules::load(rules::shipped_files(), none);
  }();

  Diagnostics of_state;
  const auto state = report::WrittenState::read(std::string{text}, "state", of_state);
  demand(state.has_value() == of_state.empty());
  if (state) {
    const auto again = report::WrittenState::read(rewritten(*state), "again", of_state);
    demand(again && again->today() == state->today() && again->problems() == state->problems());
    demand(again->names() == state->names());
    for (const std::string& name : state->names()) demand(again->site(name) == state->site(name));
  }

  Diagnostics of_digest;
  const auto digest = report::read_digest(text, "digest", table, of_digest);
  demand(digest.has_value() == of_digest.empty());
  if (digest) {
    const std::string written = report::digest_json(*digest, table);
    const auto again = report::read_digest(written, "again", table, of_digest);
    demand(again && report::digest_json(*again, table) == written);
    report::as_text(report::digest_document(report::joined({*digest, *again}), table), {});
  }
  return 0;
}
