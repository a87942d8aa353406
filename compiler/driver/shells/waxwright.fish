# Completion of waxwright for fish. What fits is asked of the program itself.

function __waxwright_fitting
    set -l begun (string unescape -- (commandline -ct))
    set -l given (commandline -opc)
    set -l lines (command waxwright --complete $given[2..-1] "$begun" 2>/dev/null)
    # The value of `--use-from=FOLDER` is completed behind what stands before it.
    set -l before (string match -r -- '^--[^=]*=' "$begun")
    set -l path (string replace -r -- '^--[^=]*=' '' "$begun")
    switch "$lines[1]"
        case :recipes
            printf "$before%s\n" (__fish_complete_suffix "$path" .candle | string match -r '^[^\t]*(?:\.candle|/)(?:\t.*)?$')
        case :folders
            printf "$before%s\n" (__fish_complete_directories "$path" '')
        case :files
            printf "$before%s\n" (__fish_complete_path "$path")
    end
    if set -q lines[2]
        printf '%s\n' $lines[2..-1]
    end
end
complete -c waxwright -f -k -a '(__waxwright_fitting)'
