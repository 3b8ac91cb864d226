#!/usr/bin/env bash
# Installs a build into an empty folder, moves it elsewhere, and lets a program outside the tree find, link and run it.
#   find_package.sh BUILD-FOLDER SOURCE-FOLDER EXPECTED-LINE
set -euo pipefail
build=$1 source=$2 expected=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cmake --install "$build" --prefix "$work/first" >"$work/log" || { cat "$work/log"; exit 1; }
mv "$work/first" "$work/prefix"  # nothing may remember where it was installed
cp "$source/examples/stage_date.cpp" "$work/"
cmake -S "$source/tests/package/consumer" -B "$work/build" -G Ninja -DCMAKE_PREFIX_PATH="$work/prefix" \
  -DEXAMPLE="$work/stage_date.cpp" ${CMAKE_CXX_COMPILER_LAUNCHER:+-DCMAKE_CXX_COMPILER_LAUNCHER=$CMAKE_CXX_COMPILER_LAUNCHER} \
  "${@:4}" >"$work/log" 2>&1 && cmake --build "$work/build" >>"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
grep -rlF -e "$source" -e "$build" -e "$work/first" "$work/prefix/lib" --include='*.cmake' && { echo "paths of the build are installed"; exit 1; }
answer=$("$work/build/stage_date" "$source/examples/weather/wooster_oh_1985-2014.csv" 2014-04-10 boxwood-psyllid egg-hatch)
echo "$answer"
[ "$answer" = "$expected" ] || { echo "expected: $expected"; exit 1; }
for file in bin/budclock share/budclock/pests/boxwood-psyllid.json share/doc/budclock/LICENSE; do
  [ -e "$work/prefix/$file" ] || { echo "not installed: $file"; exit 1; }
done
