#!/usr/bin/env bash
# The nightly run among poisoned sites, kill -9, a second run and a full disk.
# usage: nightly_keeps_its_promises.sh BUDCLOCK PYTHON [SITES [PERCENT-POISONED [KILLS]]]
#   By hand, the full figures: nightly_keeps_its_promises.sh build/budclock python3 1000 5 200
set -euo pipefail
budclock=$(realpath "$1")
python=$2
sites=${3:-24}
percent=${4:-50}
kills=${5:-6}
tools=$(realpath "$(dirname "$0")/../tools")
schema=$(realpath "$(dirname "$0")/../../data/schema/digest.schema.json")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

fail() { echo "FAILED: $*" >&2; exit 1; }

# nightly OUT SITES-FILE DAY [MORE...]: its status in $status, its messages in messages.txt, its page in page.txt.
nightly() {
  local out=$1 file=$2 day=$3
  shift 3
  status=0
  "$budclock" nightly --sites "$file" --out "$out" --today "$day" "$@" >page.txt 2>messages.txt || status=$?
}
want_status() { [ "$status" -eq "$1" ] || fail "$2 gave exit status $status: $(tail -3 messages.txt)"; }

# Names, times and inodes of all files: the same when nothing was touched.
touched() { find "$1" -type f -printf '%P %T@ %i %s\n' | sort; }

# whole OUT: what the manifest lists is there, byte for byte, and nothing else waits or is left.
whole() {
  (cd "$1" && cut -d' ' -f3- manifest.txt | xargs cksum | diff - manifest.txt >&2) || fail "$1 is not what its manifest says"
  [ -z "$(find "$1" -name '*.budclock-new')" ] || fail "$1 holds leftovers"
}

"$python" "$tools/make_sites.py" made "$sites" "$percent"
poisoned=$(($(wc -l <made/poisoned.csv) - 1))

echo "$sites sites, $poisoned of them poisoned"
nightly healthy made/healthy.json 2012-04-10 --jobs 1
healthy_status=$status
[ "$status" -le 1 ] || fail "the healthy sites gave exit status $status"
begun=${EPOCHREALTIME/./}
nightly all made/all.json 2012-04-10 --jobs 1
microseconds=$((${EPOCHREALTIME/./} - begun))
want_status 1 "poisoned sites"
whole healthy
whole all
for report in healthy/sites/*; do
  cmp "$report" "all/sites/$(basename "$report")" || fail "a poisoned site changed the report of a healthy one"
done
[ "$(ls all/sites | wc -l)" -eq "$sites" ] || fail "$(ls all/sites | wc -l) reports of $sites sites"
tail -n +2 made/poisoned.csv | while IFS=, read -r name way line; do
  grep -qF "$name (made/all.json:$line): failed: " messages.txt || fail "$name ($way, line $line) is not named"
  report=$(grep -lF "$name," all/sites/*) || fail "$name ($way) has no report"
  grep -q "There is no forecast for this site today" "$report" || fail "the report of $name ($way) does not say so"
done
[ "$(grep -c ': failed: ' messages.txt)" -eq "$poisoned" ] || fail "another number of sites failed"
grep -q "$sites sites, $poisoned failed" messages.txt || fail "the last line does not count them"
"$python" - <<'PYTHON' || fail "the digests of healthy sites differ"
import json
def healthy(name):  # but for the places in their own sites files
    sites = json.load(open(f"{name}/digest.json"))["sites"]
    return [{k: v for k, v in site.items() if k not in ("file", "line", "column")} for site in sites if not site["failed"]]
assert json.dumps(healthy("healthy")) == json.dumps(healthy("all")), "differ"
PYTHON
if "$python" -c 'import jsonschema' 2>/dev/null; then
  "$python" "$tools/schema_accepts.py" "$schema" healthy/digest.json all/digest.json || fail "not after the schema"
fi

echo "two threads as one"
nightly two made/all.json 2012-04-10 --jobs 2
want_status 1 "two threads"
diff -r all two || fail "two threads gave other bytes"

for jobs in 1 4; do nightly "all-formats-$jobs" made/healthy.json 2012-04-10 --jobs "$jobs" --format text,md,html,ics,csv,json; done
diff -r all-formats-1 all-formats-4 || fail "four threads gave other bytes"

echo "again on the same day"
touched all >before.txt
nightly all made/all.json 2012-04-10 --jobs 2 --due --only-changed
want_status 1 "a second run"
touched all | diff before.txt - || fail "a second run touched files"
cmp page.txt all/digest.txt || fail "the page on standard output is another"

echo "on the next day, and again"
cp -r all ref_10
nightly all made/all.json 2012-04-11
grep -q '^CHANGED SINCE YESTERDAY' all/digest.txt || fail "nothing is compared with the day before"
grep -q 'earlier than yesterday\|later than yesterday' all/digest.txt || fail "no date has moved"
whole all
cp -r all ref_11
nightly all made/all.json 2012-04-11
diff -r all ref_11 || fail "a second run on the next day gave other bytes"
[ -f all/state/2012-04-10.jsonl ] || fail "the state of the day before is gone"

echo "a quiet day, and sites that are gone"
nightly quiet made/healthy.json 2012-11-20 boxwood --only-changed
[ -s page.txt ] || fail "the first page was not printed"
nightly quiet made/healthy.json 2012-11-21 boxwood --only-changed
[ ! -s page.txt ] || fail "a page that says nothing new was printed"
cp -r all gone
nightly gone made/healthy.json 2012-04-11
nightly gone made/healthy.json 2012-04-30
[ "$(ls gone/state)" = $'2012-04-11.jsonl\n2012-04-30.jsonl' ] || fail "the states kept are: $(ls gone/state)"
diff <(ls gone/sites) <(ls healthy/sites) || fail "reports of sites that are gone are still there"

echo "two runs at once"
touched all >before.txt
exec 9>>all/.budclock-lock
flock 9
nightly all made/all.json 2012-04-12
want_status 5 "a second run at once"
grep -q 'another run is writing here' messages.txt || fail "the message is: $(cat messages.txt)"
touched all | diff before.txt - || fail "a run without the lock touched files"
nightly all made/all.json 2012-04-11 --wait 9>&- &
waiting=$!
sleep 0.3
kill -0 "$waiting" || fail "the run did not wait"
exec 9>&-
wait "$waiting" || fail "the run that waited failed"
diff -r all ref_11 || fail "the run that waited gave other bytes"

echo "killed $kills times"
# sums FOLDER: a line "CHECKSUM SIZE NAME" for each file that waits for nothing.
sums() { (cd "$1" && find . -type f ! -name '*.budclock-new' -printf '%P\n' | xargs cksum | sort); }
sort -u <(sums ref_10) <(sums ref_11) >of_either_day.txt
sums ref_11 | cut -d' ' -f3- | sort >names.txt
# Each file is that of the one day or of the other, whole, and none is gone.
of_one_day() {
  sums all >now.txt
  comm -23 now.txt of_either_day.txt >torn.txt
  [ ! -s torn.txt ] || fail "of neither day: $(cat torn.txt)"
  cut -d' ' -f3- now.txt | sort | comm -13 - names.txt >gone.txt
  [ ! -s gone.txt ] || fail "gone: $(cat gone.txt)"
}
leftovers=0
for ((kill = 1; kill <= kills; ++kill)); do
  day=2012-04-1$((kill % 2))
  # not in a function: the kill must hit the program, not a shell around it
  "$budclock" nightly --sites made/all.json --out all --today "$day" --jobs 2 >/dev/null 2>&1 &
  writer=$!
  pause=$((microseconds * (RANDOM % 110) / 100))  # somewhere in its run, or just after
  sleep "$(printf '%d.%06d' $((pause / 1000000)) $((pause % 1000000)))"
  kill -9 "$writer" 2>/dev/null || true
  wait "$writer" 2>/dev/null || true
  leftovers=$((leftovers + $(find all -name '*.budclock-new' | wc -l)))
  of_one_day
done
echo "$leftovers files were waiting when a run was killed"
nightly all made/all.json 2012-04-11
whole all
diff -r all ref_11 || fail "after the kills the bytes are others"

echo "a full disk"
status=0
(
  trap '' XFSZ
  ulimit -f 12
  "$budclock" nightly --sites made/all.json --out all --today 2012-04-10 >/dev/null 2>messages.txt
) || status=$?
want_status 4 "a full disk"
grep -q 'cannot be written: File too large: make room' messages.txt || fail "the message is: $(cat messages.txt)"
diff -r all ref_11 || fail "a full disk harmed old files"
if mkdir disk && mount -t tmpfs -o size=64k none disk 2>/dev/null; then
  trap 'umount "$folder/disk"; rm -rf "$folder"' EXIT
  nightly disk made/all.json 2012-04-10
  want_status 4 "a small disk"
  grep -q 'No space left on device' messages.txt || fail "the message is: $(cat messages.txt)"
  [ -z "$(find disk -type f ! -name .budclock-lock)" ] || fail "the small disk holds half a set"
fi

echo "nothing to be done"
nightly none made/none.json 2012-04-10
want_status 3 "a sites file that is not there"
[ ! -e none ] || fail "a folder was made for nothing"
echo "$healthy_status for the healthy sites; a run takes $microseconds microseconds, $((microseconds / sites)) a site"
