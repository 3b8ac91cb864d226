#!/usr/bin/env bash
# A log under several writers, kill -9 and a full disk: the scouting log by `seen`, the action log by `did`.
# usage: logs_lose_nothing.sh BUDCLOCK seen|did [ROWS-OF-EACH-PROCESS [KILLS]]
#   By hand, the full figures: logs_lose_nothing.sh build/budclock did 1000 300
set -euo pipefail
budclock=$(realpath "$1")
writer=$2
rows=${3:-15}
kills=${4:-15}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

fail() { echo "FAILED: $*" >&2; exit 1; }

cat >budclock-sites.csv <<'CSV'
name,latitude,longitude,plants,weather
Mill Lane,40.78,-81.92,boxwood,none.csv
CSV

case $writer in
  seen) log=scouting-log.csv shows=log says=(--saw nymphs) ;;
  did) log=action-log.csv shows=records says=(--action soap) ;;
  *) fail "no such writer: $writer" ;;
esac
write=("$budclock" "$writer" --site "Mill Lane" --pest boxwood-psyllid --today 2012-04-10 "${says[@]}" --note)

# record NOTE: one row.
record() { "${write[@]}" "$1" >/dev/null 2>told.txt || { local status=$?; cat told.txt >&2; return "$status"; }; }

# sound ROWS: the log reads without a fault and holds at least so many, none of them twice.
sound() {
  "$budclock" "$shows" --today 2012-04-10 --format csv >listed.csv || fail "the log has faults"
  have=$(($(wc -l <listed.csv) - 1))
  [ "$have" -ge "$1" ] || fail "$have rows of $1"
  local column different
  column=$(head -n1 listed.csv | tr , '\n' | grep -nx note | cut -d: -f1)
  different=$(tail -n +2 listed.csv | cut -d, -f"$column" | sort -u | wc -l)
  [ "$different" -eq "$have" ] || fail "$have rows, $different of them different"
  echo "$have rows, $1 wanted"
}

echo "four processes, $rows rows each"
for process in 1 2 3 4; do
  (for ((row = 1; row <= rows; ++row)); do record "process $process row $row"; done) &
done
wait
sound $((4 * rows))
[ "$have" -eq $((4 * rows)) ] || fail "$have rows of $((4 * rows))"

echo "killed $kills times"
begun=${EPOCHREALTIME/./}
record "how long one takes"
microseconds=$((${EPOCHREALTIME/./} - begun))
reported=1
pause() { sleep "$(printf '0.%06d' $(((microseconds * (RANDOM % 120) / 100) % 1000000)))"; }  # within a run, or just after
for ((kill = 1; kill <= kills; ++kill)); do
  "${write[@]}" "killed $kill" >/dev/null 2>&1 &  # not in a function: the kill must hit the program, not a shell around it
  process=$!
  pause
  kill -9 "$process" 2>/dev/null || true
  if wait "$process" 2>/dev/null; then reported=$((reported + 1)); fi
done
record "after the kills" || fail "nothing can be recorded any more"
sound $((4 * rows + reported + 1))

echo "killed $kills times over a log that is not there yet"
mv "$log" kept.csv
waiting=0
for ((kill = 1; kill <= kills; ++kill)); do
  "${write[@]}" "new $kill" >/dev/null 2>&1 &
  process=$!
  pause
  kill -9 "$process" 2>/dev/null || true
  wait "$process" 2>/dev/null || true
  [ ! -e "$log" ] || [ "$(wc -l <"$log")" -eq 2 ] || fail "a new log holds $(wc -l <"$log") lines"
  rm -f "$log"
  [ ! -e ".$log.budclock-new" ] || waiting=$((waiting + 1))
done
echo "$waiting times a new log was waiting for its name"
record "a new log" || fail "no new log can be made"
[ ! -e ".$log.budclock-new" ] || fail "a temporary file is left"
sound 1
mv kept.csv "$log"

echo "a full disk"
cp "$log" before.csv
blocks=$((($(wc -c <"$log") + 1023) / 1024))
status=0
(
  trap '' XFSZ
  ulimit -f "$blocks"
  for ((row = 1; row <= 40; ++row)); do record "filling the disk row $row" || exit $?; done
) 2>full.txt || status=$?
[ "$status" -eq 4 ] || fail "a full disk gave exit status $status"
grep -q 'nothing was added' full.txt || fail "the message is: $(cat full.txt)"
head -c "$(wc -c <before.csv)" "$log" | cmp - before.csv || fail "old rows were harmed"
record "after the full disk" || fail "nothing can be recorded any more"
sound $((4 * rows + reported + 2))
