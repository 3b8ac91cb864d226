// How names of pests and plants are compared. Private to this folder.
#pragma once

#include <budclock/rules/pest.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace budclock::sites {

/// " norway spruce " for "Norway spruces": lower case, words between single spaces, hyphens as spaces, and no plural s.
std::string words_of(std::string_view text);

/// Id, common, scientific and other names.
std::vector<std::string> all_names(const rules::Pest& pest);
std::vector<std::string> all_names(const rules::Host& host);

}  // namespace budclock::sites
