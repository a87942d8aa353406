# Completion of waxwright for bash. What fits is asked of the program itself.

# The word without its quotes and backslashes. Nothing of it is run.
_waxwright_plain() {
    local word=$1
    case $word in
    \'* | \"*) word=${word:1} ;;
    '~/'*) word=$HOME/${word:2} ;;
    esac
    case $word in
    *\' | *\") word=${word%?} ;;
    esac
    printf '%s' "${word//\\/}"
}

_waxwright() {
    local word about files words=()
    for word in "${COMP_WORDS[@]:1:COMP_CWORD}"; do
        words+=("$(_waxwright_plain "$word")")
    done
    local begun=${words[-1]}
    [[ $begun == = ]] && begun=
    COMPREPLY=()
    {
        IFS= read -r files
        while IFS=$'\t' read -r word about; do
            [[ $word == *[!-A-Za-z0-9_.,/=+]* ]] && printf -v word '%q' "$word"
            COMPREPLY+=("$word")
        done
    } < <(waxwright --complete "${words[@]}" 2>/dev/null)
    local names=()
    case $files in
    :recipes)
        mapfile -t names < <(compgen -f -X '!*.candle' -- "$begun"; compgen -d -- "$begun")
        ;;
    :folders) mapfile -t names < <(compgen -d -- "$begun") ;;
    :files) mapfile -t names < <(compgen -f -- "$begun") ;;
    *) return ;;
    esac
    compopt -o filenames 2>/dev/null
    COMPREPLY+=("${names[@]}")
}
complete -F _waxwright waxwright
