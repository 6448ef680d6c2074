# oxturn: completion for fish
function __oxturn_complete
    set -l words (commandline -opc)
    set -e words[1]
    set -l found (oxturn __complete $words (commandline -ct) 2>/dev/null)
    switch "$found[1]"
        case ':toml'
            __fish_complete_suffix .toml
            __fish_complete_suffix .pdf
        case ':files'
            __fish_complete_path (commandline -ct)
        case ':folders'
            __fish_complete_directories (commandline -ct)
        case '*'
            printf '%s\n' $found
    end
end
complete -c oxturn -f -a '(__oxturn_complete)'
