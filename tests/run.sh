#!/usr/bin/env bash
# Installs what the tests need (Debian), builds, and runs them.
#   tests/run.sh         core tests on a release build
#   tests/run.sh --all   adds the same tests under AddressSanitizer and UndefinedBehaviorSanitizer, and what others'
#                        programs read of our files: an office program, calendar readers, a browser
#   tests/run.sh --foreign   those programs alone, on a release build
#   tests/run.sh --package   the Debian packages: lintian, and an answer on a clean root (as root; not part of --all)
#   tests/run.sh --faults    every system call failing, allocations failing, kills, valgrind, ThreadSanitizer (an hour; not
#                            part of --all)
# Fails on the first thing that fails. Build folders: build/release, build/sanitize, build/foreign.
set -euo pipefail
cd "$(dirname "$0")/.."
. examples/packages.sh

core=yes sanitize=no foreign=no
case "${1:-}" in
  "") ;;
  --all) sanitize=yes foreign=yes ;;
  --foreign) core=no foreign=yes ;;
  --package)
    install_packages "${build_packages[@]}" "${package_packages[@]}"
    exec tests/package/check.sh ;;
  --faults)
    install_packages "${build_packages[@]}" "${test_packages[@]}" "${fault_packages[@]}"
    cmake -S . -B build/faults -G Ninja -DCMAKE_BUILD_TYPE=Debug
    cmake --build build/faults
    exec tests/faults/run.sh build/faults /usr/bin/python3 ;;
  *) echo "usage: tests/run.sh [--all|--foreign|--package|--faults]" >&2; exit 2 ;;
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

foreign_readers() {
  install_packages "${foreign_packages[@]}"
  command -v npm >/dev/null || install_packages nodejs npm
  mkdir -p build/foreign
  cp tests/foreign/package.json build/foreign/
  PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD=1 npm install --prefix build/foreign --silent --no-audit --no-fund
  tests/foreign/check.sh build/release/budclock /usr/bin/python3 build/foreign
}

if [ $core = yes ]; then
  build_and_test release -DCMAKE_BUILD_TYPE=Release
else
  cmake -S . -B build/release -G Ninja "${launcher[@]}" -DCMAKE_BUILD_TYPE=Release
  cmake --build build/release --target budclock
fi
if [ $foreign = yes ]; then foreign_readers; fi
if [ $sanitize = yes ]; then build_and_test sanitize -DCMAKE_BUILD_TYPE=Debug -DBUDCLOCK_SANITIZE=ON; fi
