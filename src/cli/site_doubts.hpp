// What may be a slip in a row of a log, but is recorded all the same.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/sites/site.hpp>

namespace budclock::cli {

/// True, with a note, when the site says what grows there and no plant of the pest does, nor is the pest watched.
bool note_missing_plant(const sites::Site& site, const rules::PestTable& table, const rules::Pest& pest,
                        Diagnostics& notes);

}  // namespace budclock::cli
