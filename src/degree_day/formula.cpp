#include <budclock/degree_day/formula.hpp>
