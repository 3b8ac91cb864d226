#!/usr/bin/env bash
# What others' programs read of our files: LibreOffice, two calendar readers, a JSON validator, a browser.
# usage: check.sh BUDCLOCK PYTHON NODE-FOLDER   (NODE-FOLDER: where package.json here is installed)
set -euo pipefail
budclock=$(realpath "$1")
python=$2
export NODE_PATH=$(realpath "$3")/node_modules
here=$(realpath "$(dirname "$0")")
source=$(realpath "$here/../..")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$source"

fail() { echo "FAILED: $*" >&2; exit 1; }

# nightly OUT DAY [MORE...]
nightly() {
  local out=$1 day=$2
  shift 2
  "$budclock" nightly --sites examples/sites/sites.json --out "$out" --today "$day" --format text,md,html,ics,csv,json \
    "$@" 2>/dev/null || [ $? -eq 1 ]
}
nightly "$folder/plain" 2012-04-10
nightly "$folder/later" 2012-04-11
nightly "$folder/comma" 2012-04-10 --delimiter ';' --decimal ,

echo "LibreOffice: dates are dates, numbers are numbers, no text is a formula"
"$budclock" seen --sites examples/sites/sites.json --log "$folder/log.csv" --site "Mill Lane" --pest "eastern spruce" \
  --saw nymphs --date 2012-04-09 --today 2012-04-10 --note '=1+1' --by '@office' >/dev/null ||
  fail "the sighting for the office could not be recorded"
for day in {10..22}; do
  "$budclock" did --sites examples/sites/sites.json --actions "$folder/actions.csv" --site "Mill Lane" --pest boxwood \
    --action soap --date "2012-04-$day" --today 2012-05-01 --product '=1+1' --registration 5-12 --amount '@9 oz' \
    --area "3/4 acre" --note "-1 $day" >/dev/null 2>&1 || fail "the action for the office could not be recorded"
done
"$budclock" records --sites examples/sites/sites.json --actions "$folder/actions.csv" --today 2012-05-01 --for-inspector \
  --season 2012 --format csv >"$folder/inspection.csv" 2>/dev/null || fail "the season could not be exported"
cp "$folder/plain/sites/mill_lane.csv" "$folder/site.csv"
cp "$folder/plain/digest.csv" "$folder/digest.csv"
cp "$folder/comma/sites/mill_lane.csv" "$folder/comma.csv"
office() { soffice "-env:UserInstallation=file://$folder/office" --headless --convert-to fods --outdir "$folder" "$@" >/dev/null 2>&1; }
office "--infilter=Text - txt - csv (StarCalc):44,34,76,1,,1033,false,true" "$folder"/{site,digest,log,inspection}.csv
office "--infilter=Text - txt - csv (StarCalc):59,34,76,1,,1031,false,true" "$folder/comma.csv"
"$python" "$here/office_cells.py" "$folder"

echo "calendars: vobject and ical.js read the same events; a later night moves them"
"$python" "$here/calendar_events.py" "$folder"/plain/sites/*.ics >"$folder/vobject.txt"
node "$here/calendar_events.js" "$folder"/plain/sites/*.ics >"$folder/ical.txt"
diff "$folder/vobject.txt" "$folder/ical.txt" || fail "two readers see other events"
[ "$(wc -l <"$folder/vobject.txt")" -ge 40 ] || fail "only $(wc -l <"$folder/vobject.txt") events"
[ -z "$(cut -f1 "$folder/vobject.txt" | sort | uniq -d)" ] || fail "a UID stands twice"
"$python" "$here/calendar_events.py" "$folder"/later/sites/*.ics | cut -f1 | sort >"$folder/later.txt"
kept=$(cut -f1 "$folder/vobject.txt" | sort | comm -12 - "$folder/later.txt" | wc -l)
[ "$kept" -ge 35 ] || fail "only $kept events keep their UIDs over a night"
echo "  $(wc -l <"$folder/vobject.txt") events, $kept of them there on the next day"

echo "JSON: ajv agrees with the schemas"
node "$here/validate.js" data/schema/digest.schema.json "$folder/plain/digest.json"
node "$here/validate.js" data/schema/sites.schema.json examples/sites/sites.json
for pest in data/pests/*.json; do node "$here/validate.js" data/schema/pest.schema.json "$pest"; done

echo "pages: axe-core finds nothing, nothing is asked of the network, and 320 pixels are wide enough"
node "$here/pages.js" "$folder"/plain/digest.html "$folder"/plain/sites/{mill_lane,quarry_farm}.html
