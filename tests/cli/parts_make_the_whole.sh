#!/usr/bin/env bash
# Parts of the sites, run side by side and joined, give the digest and the reports of one run.
# usage: parts_make_the_whole.sh BUDCLOCK PYTHON
set -euo pipefail
budclock=$(realpath "$1")
python=$2
source=$(realpath "$(dirname "$0")/../..")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

fail() { echo "FAILED: $*" >&2; exit 1; }

# a run's status may be 1: some sites are poisoned
run() { "$budclock" "$@" 2>messages.txt || [ $? -eq 1 ] || fail "$*: $(tail -3 messages.txt)"; }

# reversed IN OUT: the sites of a file in the other order.
reversed() {
  "$python" - "$1" "$2" <<'PY'
import json, sys
sites = json.load(open(sys.argv[1]))
sites["sites"].reverse()
json.dump(sites, open(sys.argv[2], "w"), indent=1)
PY
}

# Their order is not that of their names, and the log has a fault that concerns all parts.
"$python" "$source/tests/tools/make_sites.py" made 12 25
reversed made/all.json made/sites.json
printf 'date,site,pest,saw\n2012-04-01,Nowhere,boxwood psyllid,nymphs\n' >made/scouting-log.csv
run nightly --sites made/sites.json --out whole --today 2012-04-09
run nightly --sites made/sites.json --out whole --today 2012-04-10

echo "by GNU parallel"
nightly="$budclock nightly --sites made/sites.json"
for day in 2012-04-09 2012-04-10; do
  parallel --will-cite --jobs 2 "$nightly --out parts/{} --part {}/3 --today $day 2>/dev/null || [ \$? -le 1 ]" ::: 1 2 3 ||
    fail "a part could not be made"
done
[ "$(cat parts/*/manifest.txt | grep -c ' sites/')" -eq 12 ] || fail "the parts do not share out 12 reports"
for report in parts/*/sites/*; do
  cmp "$report" "whole/sites/$(basename "$report")" || fail "a part made another report"
done
for format in text:txt md:md csv:csv json:json html:html; do
  run digest parts/3 parts/1 parts/2 parts/2/ --today 2012-04-10 --format "${format%:*}" >joined
  cmp joined "whole/digest.${format#*:}" || fail "the joined digest differs as ${format%:*}"
done

echo "as an array job"
for task in 1 2 3; do
  BUDCLOCK=$budclock TODAY=2012-04-10 SLURM_ARRAY_TASK_ID=$task SLURM_ARRAY_TASK_COUNT=3 \
    "$source/examples/nightly_array.sh" made/sites.json array 2>messages.txt || fail "task $task: $(tail -3 messages.txt)"
done
diff <(cd parts && cksum */sites/*) <(cd array && cksum */sites/*) || fail "the array job made other reports"

echo "in another order"
run nightly --sites made/all.json --out turned --part 2/3 --today 2012-04-10
[ "$(ls turned/sites)" = "$(ls parts/2/sites)" ] || fail "another order put other sites into the part"

echo "a part that is missing, broken or of another day"
mkdir parts/4 parts/5
echo '{"schema": "budclock/digest/1", "today": "2012-04-10"' >parts/5/digest.json
run nightly --sites made/sites.json --out old --part 1/3 --today 2012-04-08
run digest parts/1 parts/4 parts/5 old --today 2012-04-11 >joined
for named in parts/4/digest.json parts/5/digest.json:2:1: 'old/digest.json: is of 2012-04-08, not of 2012-04-10; its sites are left out: ' \
  'part 2 of 3 is not here' 'the parts are of 2012-04-10, not of 2012-04-11'; do
  cat messages.txt joined | tr -s "\n " " " | grep -qF "$named" || fail "$named is not named: $(cat messages.txt)"
done
grep -q "PROBLEMS" joined || fail "the page does not tell"
status=0
"$budclock" digest parts/4 >joined 2>messages.txt || status=$?
[ "$status" -eq 3 ] || fail "without any part the status is $status"
[ ! -s joined ] || fail "without any part there is a page"
