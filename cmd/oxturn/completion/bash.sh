# oxturn: completion for bash
_oxturn() {
  local cur=${COMP_WORDS[COMP_CWORD]} words
  words=$(oxturn __complete "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
  COMPREPLY=()
  local IFS=$'\n'
  case $words in
    :toml) compopt -o filenames; COMPREPLY=($(compgen -f -X '!*.toml' -- "$cur") $(compgen -f -X '!*.pdf' -- "$cur") $(compgen -d -- "$cur")) ;;
    :files) compopt -o filenames; COMPREPLY=($(compgen -f -- "$cur")) ;;
    :folders) compopt -o filenames; COMPREPLY=($(compgen -d -- "$cur")) ;;
    *) COMPREPLY=($(compgen -W "$words" -- "$cur")) ;;
  esac
}
complete -F _oxturn oxturn
