_blankwright() {
  local words
  words=$(_blankwright_words "${COMP_WORDS[1]}" "${COMP_WORDS[COMP_CWORD-1]}" "$COMP_CWORD")
  case "$words" in
    *@files*) compopt -o default 2>/dev/null; words=${words//@files/} ;;
  esac
  COMPREPLY=($(compgen -W "$words" -- "${COMP_WORDS[COMP_CWORD]}"))
  case "${COMPREPLY[0]}" in
    *=) compopt -o nospace 2>/dev/null ;;
  esac
}
complete -F _blankwright blankwright
