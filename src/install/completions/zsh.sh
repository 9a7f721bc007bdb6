_blankwright() {
  local -a candidates
  candidates=(${=$(_blankwright_words "${words[2]}" "${words[CURRENT-1]}" "$((CURRENT - 1))")})
  case "${candidates[*]}" in
    *@files*) _files ;;
  esac
  candidates=(${candidates:#@files})
  compadd -S '' -- ${(M)candidates:#*=}
  compadd -- ${candidates:#*=}
}
if [ "$funcstack[1]" = "_blankwright" ]; then _blankwright "$@"; else compdef _blankwright blankwright; fi
