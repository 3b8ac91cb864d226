// GHCN-Daily's own fixed-width files, `*.dly`.
//
// One line holds one month of one element of one station: id in columns 1-11, year in 12-15, month in 16-17, element
// in 18-21, then for each of 31 days a value of five columns and three flags (measurement, quality, source), 269
// columns in all. Temperatures are whole tenths of a degree Celsius; -9999 is no value and fills the days after the
// month's end. A letter in the quality flag says that the value failed one of the publisher's checks.
// Source: Menne, Durre, Korzeniewski, McNeill, Thomas, Yin, Anthony, Ray, Vose, Gleason & Houston 2012, Global
// Historical Climatology Network - Daily, Version 3, NOAA NCEI, the layout as in its readme.txt, section III (from
// memory; held against the published files of three stations).
#pragma once

#include <budclock/weather/layout.hpp>

namespace budclock::weather {

bool is_ghcn_dly(std::string_view start);

/// Reads the elements TMAX and TMIN. A flagged value is missing, and counted. Months of absent values at either end do
/// not make the record longer. Lines of a wrong length, and values that are none, are faults.
FileSummary read_ghcn_dly(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                          const StationHandler& on_station);

}  // namespace budclock::weather
