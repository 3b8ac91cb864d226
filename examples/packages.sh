# Debian packages that budclock needs, and how to get those that are missing. Sourced by the scripts beside it.
build_packages=(g++ cmake ninja-build libcli11-dev nlohmann-json3-dev libhowardhinnant-date-dev libfmt-dev zlib1g-dev
                libical-dev uuid-dev pkg-config)
test_packages=(catch2 librapidcheck-dev libboost-math-dev python3 python3-jsonschema mawk parallel mandoc zsh strace)
package_packages=(dpkg-dev lintian debootstrap)
fault_packages=(valgrind)
foreign_packages=(chromium libreoffice-calc-nogui python3-vobject)

install_packages() {  # PACKAGE...
  local missing=() package
  for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done
  [ ${#missing[@]} -gt 0 ] || return 0
  local root=()
  if [ "$(id -u)" -ne 0 ]; then root=(sudo); fi
  echo "installing: ${missing[*]}" >&2
  "${root[@]}" apt-get update -qq >&2
  DEBIAN_FRONTEND=noninteractive "${root[@]}" apt-get install -y -qq --no-install-recommends "${missing[@]}" >&2
}
