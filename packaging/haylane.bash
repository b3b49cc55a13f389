# Completion of haylane in bash. Verbs, options and their choices are read from the program's own
# --help, so that they are always its own; anything else completes as a file.
_haylane() {
  local program=$1 current=$2 previous=$3 help choices
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    help=$("$program" --help 2>/dev/null)
    choices=$(sed -n '/^Subcommands:/,$ s/^  \([a-z][a-z-]*\) .*/\1/p' <<<"$help")
    [[ $current == -* ]] && choices=
  else
    help=$("$program" "${COMP_WORDS[1]}" --help 2>/dev/null)
    # A line such as "  --units TEXT:{us,metric}", of the option before the word.
    [[ $previous == -* ]] &&
      choices=$(sed -n "s/^  \(-.,\)\{0,1\}$previous .*:{\([^}]*\)}.*/\2/p" <<<"$help" | tr , ' ')
  fi
  [[ $current == -* ]] && choices=$(sed -n 's/^  \(-.,\)\{0,1\}\(--[a-z-]*\).*/\2/p' <<<"$help")
  mapfile -t COMPREPLY < <(compgen -W "$choices" -- "$current")
}
complete -o bashdefault -o default -F _haylane haylane
