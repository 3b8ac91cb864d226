// The words that stand for the enumerations of a rule, in pest files and in machine-readable output.
#pragma once

#include <budclock/rules/pest.hpp>

#include <array>
#include <string_view>
#include <utility>

namespace budclock::rules {

template <class E, std::size_t N>
using Names = std::array<std::pair<std::string_view, E>, N>;

inline constexpr Names<Grade, 3> k_grade_names{
    {{"seen", Grade::seen}, {"quoted", Grade::quoted}, {"common practice", Grade::common_practice}}};

inline constexpr Names<Meaning, 6> k_meaning_names{{{"first occurrence", Meaning::first_occurrence},
                                                    {"range low", Meaning::range_low},
                                                    {"range high", Meaning::range_high},
                                                    {"mean", Meaning::mean},
                                                    {"completion", Meaning::completion},
                                                    {"unspecified", Meaning::unspecified}}};

inline constexpr Names<Use, 4> k_use_names{
    {{"date", Use::date}, {"warning", Use::warning}, {"support", Use::support}, {"shown", Use::shown}}};

inline constexpr Names<Action, 10> k_action_names{{{"look", Action::look},
                                                   {"prune", Action::prune},
                                                   {"pick", Action::pick},
                                                   {"contact", Action::contact},
                                                   {"soap", Action::soap},
                                                   {"oil", Action::oil},
                                                   {"soil systemic", Action::soil_systemic},
                                                   {"trunk systemic", Action::trunk_systemic},
                                                   {"foliar systemic", Action::foliar_systemic},
                                                   {"quarantine", Action::quarantine}}};

inline constexpr Names<WindowKind, 3> k_window_kind_names{
    {{"look", WindowKind::look}, {"act", WindowKind::act}, {"abstain", WindowKind::abstain}}};

inline constexpr Names<Direction, 2> k_direction_names{
    {{"earliest", Direction::earliest}, {"latest", Direction::latest}}};

inline constexpr Names<CompanionKind, 2> k_companion_kind_names{
    {{"pest", CompanionKind::pest}, {"indicator plant", CompanionKind::indicator_plant}}};

inline constexpr Names<Harm, 3> k_harm_names{
    {{"cosmetic", Harm::cosmetic}, {"weakens", Harm::weakens}, {"kills", Harm::kills}}};

inline constexpr Names<Need, 3> k_need_names{
    {{"rarely", Need::rarely}, {"sometimes", Need::sometimes}, {"often", Need::often}}};

/// The word for a value; each value has one.
template <class E, std::size_t N>
constexpr std::string_view name_in(const Names<E, N>& names, E value) {
  for (const auto& [name, named] : names) {
    if (named == value) return name;
  }
  return {};
}

constexpr std::string_view name(Grade value) { return name_in(k_grade_names, value); }
constexpr std::string_view name(Meaning value) { return name_in(k_meaning_names, value); }
constexpr std::string_view name(Use value) { return name_in(k_use_names, value); }
constexpr std::string_view name(Action value) { return name_in(k_action_names, value); }
constexpr std::string_view name(WindowKind value) { return name_in(k_window_kind_names, value); }
constexpr std::string_view name(Direction value) { return name_in(k_direction_names, value); }
constexpr std::string_view name(CompanionKind value) { return name_in(k_companion_kind_names, value); }
constexpr std::string_view name(Harm value) { return name_in(k_harm_names, value); }
constexpr std::string_view name(Need value) { return name_in(k_need_names, value); }

}  // namespace budclock::rules
