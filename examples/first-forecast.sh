#!/usr/bin/env bash
# Installs what budclock needs (Debian), builds it, and forecasts on shipped weather as of 10 April 2014.
set -euo pipefail
cd "$(dirname "$0")/.."
. examples/packages.sh
install_packages "${build_packages[@]}"

cmake -S . -B build/example -G Ninja -DCMAKE_BUILD_TYPE=Release -DBUDCLOCK_TESTS=OFF >build-example.log 2>&1 &&
  cmake --build build/example >>build-example.log 2>&1 || { cat build-example.log >&2; exit 1; }
rm -f build-example.log

build/example/budclock when boxwood --weather examples/weather/wooster_oh_1985-2014.csv --today 2014-04-10 \
  --name "Mill Lane (an invented client site)"
