#!/usr/bin/env bash
# fuzz.sh [TARGET] [SECONDS]: tries a target of tests/fuzz, or all of them one after the other, for so
# many seconds each (60). Without either, and with --bounded: the same number of runs from the same
# seed every time, as `make test` does.
. "$(dirname "$0")/base.sh"
.dev/rust.sh
command -v g++ >/dev/null || .dev/apt.sh "libFuzzer is C++" g++

fuzz=tests/fuzz built=target/fuzz
host=$(rustc -vV | sed -n 's/^host: //p')
# What tells libFuzzer which ways through the code were taken: LLVM's own pass, which the stable
# compiler has as well.
flags="-Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4"
flags+=" -Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table"
flags+=" -Cllvm-args=-sanitizer-coverage-trace-compares --cfg fuzzing"
# With a target named, build scripts are compiled without these flags.
RUSTFLAGS=$flags cargo build --quiet --locked --release --manifest-path "$fuzz/Cargo.toml" \
    --target "$host" --target-dir "$built"

# target:RUNS: how many inputs `make test` tries of each.
bounded=(links:2000 lessons:10000 answers:1500 numbers:50000 actions:300)

try() {
    local target=$1 found=$built/found/$1
    shift
    mkdir -p "$built/crashes" "$built/found/$target"
    # Inputs that were found are kept below target/; the first folder is written to.
    "$built/$host/release/$target" -dict="$fuzz/dictionary.txt" -artifact_prefix="$built/crashes/$target-" \
        -timeout=20 -rss_limit_mb=2048 -max_len=4096 "$@" >"$built/$target.log" 2>&1 || {
        tail -n 40 "$built/$target.log" >&2
        stop "$target: see above; the input is in $built/crashes (copy it to $fuzz/corpus/$target, named by what it shows)"
    }
    say "$target: $(grep -E '^Done|^stat::number_of_executed' "$built/$target.log" | tail -1)"
}

if [ "${1:-}" = --bounded ]; then
    for each in "${bounded[@]}"; do
        # Nothing found by an earlier run: the same inputs every time.
        rm -rf "$built/bounded" && mkdir -p "$built/bounded"
        try "${each%:*}" -runs="${each#*:}" -seed=1 "$built/bounded" "$fuzz/corpus/${each%:*}"
    done
    exit
fi
seconds=${2:-60}
for each in "${bounded[@]}"; do
    target=${each%:*}
    [ -z "${1:-}" ] || [ "$1" = "$target" ] || continue
    try "$target" -max_total_time="$seconds" "$built/found/$target" "$fuzz/corpus/$target"
done
