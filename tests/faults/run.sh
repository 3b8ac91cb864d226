#!/usr/bin/env bash
# Faults at full length, by hand (tests/run.sh --faults): each failing system call, many failing allocations, a thousand
# kills, valgrind, and threads under ThreadSanitizer. About an hour on two cores.
# usage: run.sh BUILD-FOLDER PYTHON    (BUILD-FOLDER holds budclock and the unit tests)
set -euo pipefail
build=$(realpath "$1")
python=$2
cd "$(dirname "$0")/../.."
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

echo "== each system call fails"
"$python" tests/cli/faults_lose_nothing.py "$build/budclock"

echo "== allocations fail"
"$build/tests/allocation_failures" examples 150 2>/dev/null

echo "== a thousand kills each"
tests/cli/nightly_keeps_its_promises.sh "$build/budclock" "$python" 8 0 1000
tests/cli/logs_lose_nothing.sh "$build/budclock" seen 30 1000
tests/cli/logs_lose_nothing.sh "$build/budclock" did 30 1000

echo "== valgrind"  # of the property tests a few cases: each costs some thirty times as much
for test in core files document sites journal rules; do
  echo "$test"
  RC_PARAMS=max_success=20 valgrind --quiet --error-exitcode=9 --leak-check=full --trace-children=no \
    "$build/tests/test_$test"
done

echo "== ThreadSanitizer"
cmake -S . -B build/threads -G Ninja -DCMAKE_BUILD_TYPE=RelWithDebInfo -DBUDCLOCK_TESTS=OFF \
  -DCMAKE_CXX_FLAGS=-fsanitize=thread -DCMAKE_EXE_LINKER_FLAGS=-fsanitize=thread
cmake --build build/threads --target budclock
"$python" tests/tools/make_sites.py "$scratch/made" 16 40
status=0
TSAN_OPTIONS=exitcode=66 build/threads/budclock nightly --sites "$scratch/made/all.json" --out "$scratch/out" \
  --today 2012-04-10 --jobs 4 --format text,md,html,ics,csv,json || status=$?
[ "$status" -eq 1 ] || { echo "threads: exit status $status" >&2; exit 1; }
TSAN_OPTIONS=exitcode=66 build/threads/budclock tally --weather examples/weather/wooster_oh_1985-2014.csv --lower 50F \
  --first-at 200,500 --jobs 4 > "$scratch/dates.csv"
echo "all faults were met"
