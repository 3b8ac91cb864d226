#!/usr/bin/env bash
# A second road to every sum: awk averages the same record with plain doubles; each of its days must agree within
# 1e-6 degree-days, unrounded (the program prints nine decimals). usage: tally_equals_awk.sh BUDCLOCK WEATHER_CSV
set -euo pipefail
budclock=$1 weather=$2

paste -d, <("$budclock" tally --weather "$weather" --lower 50F --decimals 9 | tail -n +2) <(
  mawk -F, 'NR > 1 {
    if (substr($1, 6) == "01-01") sum = 0
    if ($2 != "" && $3 != "") {
      day = ($2 + $3) / 2 * 1.8 + 32 - 50
      if (day > 0) sum += day
    }
    printf "%s,%.9f\n", $1, sum
  }' "$weather") |
  mawk -F, '
    $1 != $6 { print "dates differ: " $0; bad = 1; exit 1 }
    { d = $5 - $7; if (d < 0) d = -d; if (d > worst) worst = d; if (d > 1e-6) { print "differs: " $0; bad = 1 } }
    END { print NR " days, worst difference " worst + 0; exit bad || NR < 365 }'
