#compdef budclock
# zsh completion for budclock. The program is asked what may follow; its answer is never evaluated.
_budclock() {
  local -a answer values shown
  local line
  answer=("${(@f)$("$words[1]" __complete zsh "$HOME" "${(@Q)words[2,CURRENT-1]}" "${(Q)PREFIX}" 2>/dev/null)}")
  case $answer[1] in
    files) compset -P '--*='; _files ;;
    folders) compset -P '--*='; _files -/ ;;
    words)
      for line in "${(@)answer[2,-1]}"; do
        values+=("${line%%$'\t'*}")
        [[ $line == *$'\t'?* ]] && shown+=("${line/$'\t'/  }") || shown+=("${line%%$'\t'*}")
      done
      compadd -d shown -a values ;;
  esac
}
_budclock "$@"
