#!/usr/bin/env bash
# Sites that are traps: each is barred or warned with its reason, and the ordinary sites' reports do not change by a byte.
# usage: traps_are_barred.sh BUDCLOCK
set -euo pipefail
budclock=$(realpath "$1")
source=$(realpath "$(dirname "$0")/../..")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
mkdir -p examples tests/data/sites
cp -r "$source/tests/data/sites/traps" tests/data/sites/traps
ln -s "$source/examples/weather" examples/weather
cd tests/data/sites/traps
grep -v TRAP sites.csv >ordinary.csv
grep -v TRAP scouting-log.csv >ordinary-log.csv

fail() { echo "FAILED: $*" >&2; exit 1; }
# says FILE WORDS...: the words stand in the file, whatever its line breaks.
says() {
  local file=$1
  shift
  tr -s ' \n' ' ' <"$file" | grep -qF -- "$*" || fail "$file does not say: $*"
}
never_says() {
  local file=$1
  shift
  if tr -s ' \n' ' ' <"$file" | grep -qF -- "$*"; then fail "$file says: $*"; fi
}

day=2012-04-15
formats=text,md,html,csv,json,ics
status=0
"$budclock" nightly --sites sites.csv --out all --today $day --format $formats 2>messages.txt || status=$?
[ "$status" -eq 1 ] || fail "the traps gave exit status $status: $(tail -3 messages.txt)"
"$budclock" nightly --sites ordinary.csv --log ordinary-log.csv --out ordinary --today $day --format $formats 2>/dev/null
[ "$(ls ordinary/sites | wc -l)" -eq 18 ] || fail "another number of reports of ordinary sites"
for report in ordinary/sites/*; do
  cmp "$report" "all/sites/$(basename "$report")" || fail "a trap changed the report of an ordinary site"
done

# reasons SITE WORDS...: every form of the site's report names the reason.
reasons() {
  local site=$1
  shift
  for ending in txt md html csv json; do says "all/sites/$site.$ending" "$@"; done
}
reasons trap_blue_spruce_bend "horticultural oil (blue spruce: oil strips the blue bloom"
reasons trap_streamside "soil systemic (water at 15 ft: no soil drench within 75 feet of water"
says all/sites/trap_streamside.txt "Kind of action, as far as the label allows: trunk systemic."
reasons trap_maine_garden "the law of Maine"
for ending in txt md csv json; do says all/sites/trap_maine_garden.$ending "check the present law"; done
reasons trap_blooming_boxwood "boxwood in bloom (noted 2012-04-09): nothing insecticidal on a plant in flower"
reasons trap_wet_and_windy "ruled out for every hour of the forecast, to 2012-04-17"
says all/sites/trap_wet_and_windy.txt "wind above 8 mph (the firm's own limit)"
for ending in ics; do
  says all/sites/trap_streamside.$ending "Confirmed\, act"
  never_says all/sites/trap_blooming_boxwood.$ending "Act"
done

# Where a fact is not stated, the report says so once, and takes it for nothing.
says all/sites/ordinary_spruce.txt "Not stated for this site: state, distance to water, plants in bloom"
[ "$(grep -c "Not stated for this site" all/sites/ordinary_spruce.txt)" -eq 1 ] || fail "said more than once"

# Nobody is sent to treat where every kind is barred or ruled out.
"$budclock" stops --sites sites.csv --today $day --format csv >stops.csv 2>/dev/null || [ $? -eq 1 ] || fail "no stops"
for site in "TRAP Blooming Boxwood" "TRAP Wet And Windy"; do
  grep "^$site,.*,leave alone,now,boxwood-psyllid,.*,act,treat-nymphs," all/digest.csv >line.txt || fail "$site is not left alone"
  if grep -E "^$site,[^,]*,(act if confirmed|last days),now,boxwood-psyllid,.*,act,treat-nymphs," all/digest.csv; then
    fail "$site may be treated"
  fi
  if grep "$site" stops.csv | grep -E "act:|Act only|sprayer"; then fail "$site is a stop to treat"; fi
done
grep "TRAP No Forecast" stops.csv | grep -q "CONFIRMED, act: boxwood psyllid" || fail "a site that nothing bars is no stop"
says all/digest.txt "boxwood psyllid on boxwood: no insecticidal soap, horticultural oil or contact spray (boxwood in bloom (noted 2012-04-09)): at TRAP Blooming Boxwood"

# A site without an hourly forecast is not screened, and says so when it is asked to be.
status=0
"$budclock" day --site "TRAP No Forecast" --action oil --sites sites.csv --today $day >day.txt 2>&1 || status=$?
[ "$status" -eq 3 ] || fail "a site without a forecast gave exit status $status"
says day.txt '"TRAP No Forecast" has no hourly forecast'

# A row that cannot be split fails by itself, not with the site above it.
says all/sites/line_11.txt "There is no forecast for this site today"
grep -q '^line 11 (sites.csv:11): failed: ' messages.txt || fail "the broken row is not named"
never_says all/sites/trap_no_forecast.txt "Problems with its data"

# What was done is recorded all the same, and told to have been barred.
"$budclock" did --site "TRAP Blooming Boxwood" --pest "boxwood psyllid" --action soap --date $day --today $day \
  --sites sites.csv >did.txt 2>&1 || fail "an action that was barred was refused"
says did.txt "the facts of TRAP Blooming Boxwood bar insecticidal soap there: boxwood in bloom (noted 2012-04-09)"
says did.txt "recorded all the same"
grep -q "$day,TRAP Blooming Boxwood,boxwood-psyllid,soap" action-log.csv || fail "it is not in the log"
"$budclock" did --site "Ordinary Boxwood" --pest "boxwood psyllid" --action soap --date $day --today $day \
  --sites sites.csv >did.txt 2>&1
never_says did.txt "bar insecticidal soap"
