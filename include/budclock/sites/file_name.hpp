// File names for sites.
#pragma once

#include <string>
#include <string_view>

namespace budclock::sites {

/// A file name (without ending) for any name: "Mill Lane" -> "mill_lane". Only a-z, 0-9, '_', '-' and at most one '.'
/// occur, at most 80 bytes, never empty, never a device name of Windows. Where letters had to be dropped or changed
/// (other than upper case and spaces), ".XXXXXXXXXXXXXXXX", a hash of the whole name (FNV-1a, 64 bits), keeps names
/// apart. It depends on nothing but the name, so that a new site renames no old file.
std::string safe_file_name(std::string_view name);

}  // namespace budclock::sites
