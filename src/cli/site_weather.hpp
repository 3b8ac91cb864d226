// From the weather of a site, as its sites file has it, to what is to be read.
#pragma once

#include <budclock/sites/site.hpp>

#include "weather_input.hpp"

#include <string>

namespace budclock::cli {

/// What the recipe of a site asks for. Files are relative to `folder`, that of the sites file; a pattern that names no
/// file is an error diagnostic.
WeatherRequest request_of(const sites::Site& site, const std::string& folder, Diagnostics& diagnostics);

}  // namespace budclock::cli
