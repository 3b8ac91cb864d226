// What was done against pests: the rows of an action log.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/diagnostic.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/weather/daily_series.hpp>

#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace budclock::journal {

/// One row of the log. All texts stand as they were typed; empty: not given.
struct ActionTaken {
  Day date{};
  std::string site;  ///< name, as in the sites file
  std::string pest;  ///< id
  rules::Action action{};
  std::string product, registration, amount, area, plants, applicator, licence, reentry, preharvest, notice, note;
  weather::DayValue tmin, tmax;  ///< of that day, by the site's record
  Place place;
};

/// A free text of a row.
struct ActionText {
  std::string_view column;         ///< of the log; on the command line, with two hyphens, its option
  std::string ActionTaken::*text;  ///< the member
  bool from_label = false;         ///< about the product: stays in the log and in an inspector's export
  std::string_view required_as{};  ///< what the federal record calls it; empty: it is not asked for
};

/// In the order of the log. What is required is that of k_record_rule.
inline constexpr std::array<ActionText, 11> k_action_texts{{
    {"product", &ActionTaken::product, true, "brand name"},
    {"registration", &ActionTaken::registration, true, "EPA registration number"},
    {"amount", &ActionTaken::amount, true, "total amount applied"},
    {"area", &ActionTaken::area, false, "size of the area treated"},
    {"plants", &ActionTaken::plants, false, "crop, commodity or plants treated"},
    {"applicator", &ActionTaken::applicator, false, "name of the certified applicator"},
    {"licence", &ActionTaken::licence, false, "certification number"},
    {"reentry", &ActionTaken::reentry, true},
    {"preharvest", &ActionTaken::preharvest, true},
    {"notice", &ActionTaken::notice},
    {"note", &ActionTaken::note},
}};

/// The federal rule on records of restricted-use products, written from memory: confirm its wording before relying on
/// it. States ask for more, or for records of other products too. Site and date, which it also asks for, stand in every
/// row.
inline constexpr std::string_view k_record_rule =
    "7 CFR 110.3, records of restricted-use products (from memory: confirm)";

/// The texts that k_record_rule asks for and the row lacks. None where no pesticide was used.
std::vector<const ActionText*> missing_texts(const ActionTaken& row);

/// The words for where a temperature came from; none for `absent`.
inline constexpr std::array<std::pair<std::string_view, weather::Origin>, 5> k_origin_names{
    {{"observed", weather::Origin::observed},
     {"neighbour", weather::Origin::neighbour},
     {"set aside", weather::Origin::set_aside},
     {"forecast", weather::Origin::forecast},
     {"line", weather::Origin::line}}};
std::string_view origin_name(weather::Origin origin);

}  // namespace budclock::journal
