#!/usr/bin/env bash
# Fuzzes for some seconds, beginning from the examples and the golden cases.
# usage: run.sh FUZZ-CHECK SECONDS
set -euo pipefail
target=$(realpath "$1")
seconds=$2
here=$(cd "$(dirname "$0")" && pwd)
corpus=$(mktemp -d)
trap 'rm -rf "$corpus"' EXIT
find "$here/../golden" "$here/../../examples" -name '*.candle' | while read -r file; do
    cp "$file" "$corpus/$(printf '%s' "$file" | md5sum | cut -c1-16).candle"
done
if ! (cd "$corpus" && "$target" -dict="$here/words.dict" -max_len=4096 -timeout=10 \
    -rss_limit_mb=2048 -max_total_time="$seconds" -print_final_stats=1 . >fuzz.log 2>&1); then
    tail -n 60 "$corpus/fuzz.log"
    for found in "$corpus"/crash-* "$corpus"/timeout-* "$corpus"/oom-* "$corpus"/leak-*; do
        if [ -f "$found" ]; then
            echo 'the fuzzer found something; the input, in base64:'
            base64 "$found"
        fi
    done
    exit 1
fi
grep -E 'stat::(number_of_executed_units|peak_rss_mb)' "$corpus/fuzz.log"
