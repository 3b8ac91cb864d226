// A pest table as bytes, so that the program starts without reading JSON. Such bytes are made at build time
// (pack_rules.cpp), are read by the same build only, and are trusted.
#pragma once

#include <budclock/rules/pest.hpp>

#include <string>
#include <string_view>

namespace budclock::rules {

std::string pack(const PestTable& table);

/// The table of which `bytes` were made. Bytes of another origin throw std::out_of_range or give nonsense.
PestTable unpack(std::string_view bytes);

/// The packed table of the shipped files (generated from data/ at build time).
std::string_view packed_shipped_table();

}  // namespace budclock::rules
