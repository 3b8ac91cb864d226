#!/usr/bin/env bash
# The manual must please the formatters at hand, be the same each time, and hold every option of every command's --help.
#   manual_is_complete.sh BUDCLOCK
set -euo pipefail
budclock=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"$budclock" __manual >"$work/budclock.1"
"$budclock" __manual | cmp - "$work/budclock.1"
checked=no
if command -v mandoc >/dev/null; then
  mandoc -T lint -W warning "$work/budclock.1" || { echo "mandoc finds fault"; exit 1; }
  checked=yes
fi
if command -v groff >/dev/null; then
  said=$(groff -man -Tutf8 -K utf8 -ww "$work/budclock.1" 2>&1 >/dev/null)
  [ -z "$said" ] || { echo "groff: $said"; exit 1; }
  checked=yes
fi
for section in NAME SYNOPSIS DESCRIPTION OPTIONS COMMANDS "EXIT STATUS" ENVIRONMENT FILES EXAMPLES CAUTIONS; do
  grep -qx "\.SH $section" "$work/budclock.1" || { echo "no section $section"; exit 1; }
done
count=0
for command in $("$budclock" --help | sed -n '/^Subcommands:/,/^$/s/^  \([a-z]\+\) .*/\1/p'); do
  sed -n "/^\.SS $command\$/,/^\.S[SH] /p" "$work/budclock.1" | sed '1d;s/\\-/-/g' >"$work/section"
  for option in $("$budclock" "$command" --help | sed -n '/^Options:/,/^$/s/^  \(-[a-z],\)\?\(--[a-z-]*\).*/\2/p'); do
    grep -q -- "$option"'\\fR' "$work/section" || { echo "the manual lacks $command $option"; exit 1; }
    count=$((count + 1))
  done
done
[ "$count" -gt 100 ] || { echo "only $count options were looked for"; exit 1; }
[ $checked = yes ] || { echo "skipped: neither mandoc nor groff is installed, so the markup was not checked"; exit 77; }
