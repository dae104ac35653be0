#!/usr/bin/env bash
# Measures how quick and how small everything is, and writes the table in DEVELOPERS.md. Figures
# never fail it; a measurement that does not come to an end does, and then the table stays.
. "$(dirname "$0")/base.sh"
EVENKEEL_LOAD=$(cut -d' ' -f1 /proc/loadavg 2>/dev/null || true)
export EVENKEEL_LOAD
need_node
.dev/build.sh
python=$(.dev/python.sh tests/bench/requirements.txt "$tools/bench-venv")
.dev/npm.sh tests/browser
.dev/npm.sh tests/bench
EVENKEEL_BROWSER=$(.dev/browser.sh)
export EVENKEEL_BROWSER

out=$PWD/target/bench
mkdir -p "$out"
say "building what is measured beside the page"
(
    . .dev/hosted.sh
    program "$out/timed.wasm" timed --no-default-features --features timed
    # With the page's whole workspace: so it is made of the very libraries that the page is made of.
    cargo build --quiet --locked --release --target wasm32-unknown-unknown --workspace --bin counter
    cp "$CARGO_TARGET_DIR/wasm32-unknown-unknown/release/counter.wasm" "$out/"
    wasm-bindgen --target web --no-typescript --out-dir "$out" "$out/counter.wasm"
    shrink "$out/timed.wasm" "$out/counter_bg.wasm"
)
cargo bench --quiet --locked --no-default-features --bench core --no-run

rows=$out/rows.jsonl
: >"$rows"
# measure TITLE COMMAND…: appends what a program prints, one figure a line.
measure() {
    say "measuring $1"
    "${@:2}" >>"$rows" || stop "the measurement of $1 did not come to its end; the table stays as it was"
}
measure "the core" node tests/bench/core.mjs "$python" "$out/timed.wasm"
measure "bytes" node tests/bench/bytes.mjs dist "$out"
[ ! -e tests/bench/page/run.mjs ] || measure "the page" node tests/bench/page/run.mjs
measure "Lighthouse's scores" node tests/bench/lighthouse.mjs dist "$EVENKEEL_BROWSER"
node tests/bench/table.mjs DEVELOPERS.md <"$rows"
say "the table stands in DEVELOPERS.md:"
sed -n '/^<!-- `make bench` writes/,/^<!-- `make bench` wrote/p' DEVELOPERS.md
