# bash completion for budclock. The program is asked what may follow; its answer comes quoted as it has to be typed and
# is never evaluated.
_budclock() {
  local answer line=${COMP_LINE:0:COMP_POINT}
  COMPREPLY=()
  mapfile -t answer < <("$1" __complete bash "$line" "$COMP_WORDBREAKS" "$HOME" 2>/dev/null)
  case ${answer[0]-} in
    files) compopt -o default 2>/dev/null ;;
    folders) compopt -o dirnames 2>/dev/null ;;
    words) COMPREPLY=("${answer[@]:1}") ;;
  esac
}
complete -F _budclock budclock
