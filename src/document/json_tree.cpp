#include <budclock/document/json_tree.hpp>
