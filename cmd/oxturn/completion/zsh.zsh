#compdef oxturn
# oxturn: completion for zsh
_oxturn() {
  local -a found
  found=(${(f)"$(oxturn __complete "${(@)words[2,CURRENT]}" 2>/dev/null)"})
  case $found[1] in
    :toml) _files -g '*.(toml|pdf)' ;;
    :files) _files ;;
    :folders) _files -/ ;;
    *) compadd -- $found ;;
  esac
}
compdef _oxturn oxturn
