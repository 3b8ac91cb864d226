#!/usr/bin/env bash
# Installs what the tests need (Debian), builds, and runs them.
#   tests/run.sh         core tests on a release build
#   tests/run.sh --all   adds the same tests under AddressSanitizer and UndefinedBehaviorSanitizer
# Fails on the first thing that fails. Build folders: build/release, build/sanitize.
set -euo pipefail
cd "$(dirname "$0")/.."
. examples/packages.sh

all=no
case "${1:-}" in
  "") ;;
  --all) all=yes ;;
  *) echo "usage: tests/run.sh [--all]" >&2; exit 2 ;;
esac

install_packages "${build_packages[@]}" "${test_packages[@]}"

launcher=()
if command -v ccache >/dev/null; then launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache); fi

build_and_test() {  # NAME CMAKE-OPTION...
  local name=$1
  shift
  cmake -S . -B "build/$name" -G Ninja -DBUDCLOCK_WERROR=ON "${launcher[@]}" "$@"
  cmake --build "build/$name"
  ctest --test-dir "build/$name" --output-on-failure --parallel "$(nproc)"
}

build_and_test release -DCMAKE_BUILD_TYPE=Release
if [ "$all" = yes ]; then
  build_and_test sanitize -DCMAKE_BUILD_TYPE=Debug -DBUDCLOCK_SANITIZE=ON
fi
