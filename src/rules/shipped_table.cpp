#include <budclock/rules/load.hpp>

#include "packed_table.hpp"

namespace budclock::rules {

PestTable shipped_table() { return unpack(packed_shipped_table()); }

}  // namespace budclock::rules
