// The pest that a row of a log is about.
#pragma once

#include <budclock/rules/pest.hpp>

#include "environment.hpp"

#include <string>

namespace budclock::cli {

/// The one pest that the command line names; null after a complaint.
const rules::Pest* choose_one(const rules::PestTable& table, const std::string& name, Environment& environment);

}  // namespace budclock::cli
