#!/usr/bin/env bash
# Asks bash's completion what may follow, as bash asks it: COMP_WORDS and the rest set, the answer in COMPREPLY.
#   completion_offers.sh BUDCLOCK SCRIPT
set -euo pipefail
budclock=$(realpath "$1") script=$(realpath "$2")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
export HOME=$work BUDCLOCK_SITES=
cat >budclock-sites.csv <<'CSV'
name,latitude,longitude,weather
Mill Lane,40,-81,a.csv
"Miller's ""Old"" Yard",40,-81,a.csv
$(touch executed),40,-81,a.csv
`touch executed`;touch executed,40,-81,a.csv
A: b=c,40,-81,a.csv
Hi! there,40,-81,a.csv
--out,40,-81,a.csv
CSV
printf 'name,latitude,longitude,weather\nElsewhere,40,-81,a.csv\n' >"other sites.csv"
. "$script"

failed=0
offers() {  # LINE EXPECTED...
  COMP_LINE=$1 COMP_POINT=${#1}
  read -ra COMP_WORDS <<<"$1"
  [[ $1 == *' ' ]] && COMP_WORDS+=("")
  COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
  COMPREPLY=(stale)
  _budclock "$budclock" "${COMP_WORDS[COMP_CWORD]}" "${COMP_WORDS[COMP_CWORD - 1]}" || true
  shift
  if [ "${COMPREPLY[*]+$(printf '<%s>' "${COMPREPLY[@]}")}" != "$([ $# -eq 0 ] || printf '<%s>' "$@")" ]; then
    printf 'after "%s" it offers:\n' "$COMP_LINE"
    printf '  %s\n' ${COMPREPLY[@]+"${COMPREPLY[@]}"}
    printf 'not:\n'; printf '  %s\n' "$@"
    failed=1
  fi
}

# Every command of --help, and every option of each command's --help; a command added later is looked for too.
for command in $("$budclock" --help | sed -n '/^Subcommands:/,/^$/s/^  \([a-z]\+\) .*/\1/p'); do
  offers "budclock $command" "$command"
  mapfile -t options < <("$budclock" "$command" --help | sed -n '/^Options:/,/^$/s/^  \(-[a-z],\)\?\(--[a-z-]*\).*/\2/p')
  [ "${#options[@]}" -gt 1 ] || { echo "no options read from $command --help"; exit 1; }
  offers "budclock $command -" "${options[@]}"
done
[ "${#options[@]}" -gt 1 ] || { echo "no command read from --help"; exit 1; }

offers "budclock when --format h" html
offers "budclock nightly --format csv,h" csv,html
offers "budclock when --gaps " fill keep refuse
offers "budclock when --delimiter t" tab
offers "budclock when box" boxwood-psyllid
offers "budclock pests hemlock-woolly-adelgid,box" hemlock-woolly-adelgid,boxwood-psyllid
offers "budclock seen --pest boxwood --saw open-buds,n" open-buds,nymphs
offers "budclock when --today "
offers "budclock nothing --site "

offers "budclock when --site M" 'Mill\ Lane' 'Miller\'"'"'s\ \"Old\"\ Yard'
offers 'budclock when --site "M' 'Mill Lane' 'Miller'"'"'s \"Old\" Yard'
offers "budclock when --site 'M" 'Mill Lane' 'Miller'"'\\''"'s "Old" Yard'
offers "budclock when --site=Mill\\ " 'Mill\ Lane'
offers 'budclock when --site $' '\$\(touch\ executed\)'
offers 'budclock when --site "' 'Mill Lane' 'Miller'"'"'s \"Old\" Yard' '\$(touch executed)' '\`touch executed\`;touch executed' \
  'A: b=c' 'Hi"\!" there'
offers "budclock when --site 'Mill Lane' --site A:" '\ b\=c'
offers 'budclock when --sites "other sites.csv" --site ' Elsewhere
offers 'budclock when --sites ~/other\ sites.csv --site E' Elsewhere
offers 'budclock when --sites $(touch${IFS}executed) --site '
offers 'budclock when --sites missing.csv --site '
[ ! -e executed ] || { echo "a name was carried out"; exit 1; }
exit $failed
