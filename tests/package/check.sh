#!/usr/bin/env bash
# Builds the Debian packages, lets lintian judge them, installs the program on a clean root and asks it there.
# Needs root, a Debian mirror and some minutes; tests/run.sh --package calls it.
#   check.sh [BUILD-FOLDER [CLEAN-ROOT]]   a clean root that is there already is used again
set -euo pipefail
cd "$(dirname "$0")/../.."
build=${1:-build/deb}
root=${2:-}
cmake -S . -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_INSTALL_PREFIX=/usr -DBUDCLOCK_TESTS=OFF \
  -DBUDCLOCK_DEB=ON -DBUDCLOCK_ZSH_DIR=zsh/vendor-completions
cmake --build "$build"
rm -f "$build"/*.deb
(cd "$build" && cpack -G DEB)
for package in "$build"/*.deb; do
  dpkg-deb --field "$package" Package Version Depends
  lintian --fail-on error "$package"
done

if [ -z "$root" ]; then
  root=$(mktemp -d)
  trap 'rm -rf "$root"' EXIT
fi
[ -x "$root/usr/bin/apt-get" ] || debootstrap --variant=minbase bookworm "$root"
cp "$build"/budclock_*.deb "$root/tmp/"
chroot "$root" sh -ec '
  apt-get update -qq
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends /tmp/budclock_*.deb >/dev/null
  cd /usr/share/doc/budclock/examples
  budclock --version
  budclock when boxwood --weather weather/wooster_oh_1985-2014.csv --today 2014-04-10'| tee "$build/answer"
grep -q "egg hatch: May 10" "$build/answer" || { echo "the installed program does not answer as it should"; exit 1; }
