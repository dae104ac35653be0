#!/usr/bin/env bash
# Builds the page for hosting into dist/, and the lesson's file beside it, installing what that takes.
. "$(dirname "$0")/base.sh"
need_node
.dev/rust.sh
.dev/tools.sh wasm-bindgen wasm-split
.dev/npm.sh .dev
say "building the page"

# The standard library is built along, for size and without panic messages: a fifth less to
# download on a bad network. That takes options of rustc that are not stable, hence the first
# line; the compiler is the pinned one. The folder is its own, so that `make serve` and this do
# not undo each other's work.
export RUSTC_BOOTSTRAP=1 CARGO_UNSTABLE_BUILD_STD=std,panic_abort
export CARGO_UNSTABLE_BUILD_STD_FEATURES=optimize_for_size
export RUSTFLAGS="-Zunstable-options -Cpanic=immediate-abort"
export CARGO_TARGET_DIR=$PWD/target/hosted
# The hosted program, whose relocations wasm-split reads, and the whole one of the lesson's file.
# All but this crate is compiled once for both, and both have their own place in cargo's cache.
parts=$CARGO_TARGET_DIR/parts
whole=$CARGO_TARGET_DIR/whole
rm -rf "$parts" "$whole"
mkdir -p "$parts" "$whole"
program() {
    cargo rustc --quiet --locked --release --target wasm32-unknown-unknown --bin evenkeel "${@:2}"
    cp "$CARGO_TARGET_DIR/wasm32-unknown-unknown/release/evenkeel.wasm" "$1"
}
program "$parts/linked.wasm" --features later -- -Clink-args=--emit-relocs
program "$whole/evenkeel.wasm" --no-default-features --features web

# shrink FILE…: WebAssembly as small as it gets. The stack ends at address 0, so nothing is kept in
# the lowest 1024 bytes.
shrink() {
    local features=(bulk-memory sign-ext nontrapping-float-to-int mutable-globals reference-types multivalue) file
    for file in "$@"; do
        wasm-opt "$file" -Oz --low-memory-unused "${features[@]/#/--enable-}" --output "$file"
        node .dev/trim.mjs order "$file"
        wasm-opt "$file" --reorder-functions-by-name "${features[@]/#/--enable-}" --output "$file"
    done
}

# Beside each other: they read what is linked and write to places of their own.
{
    wasm-bindgen --target web --no-typescript --out-dir "$whole" "$whole/evenkeel.wasm"
    node .dev/trim.mjs exports "$whole"
    shrink "$whole/evenkeel_bg.wasm"
    node .dev/trim.mjs names "$whole"
    node .dev/file.mjs "$whole" "$whole/lesson-file.html"
} &
file=$!
# What is not on the first screen leaves the program before wasm-bindgen reads the rest: parts, and
# chunks that several parts need.
wasm-split-cli "$parts/linked.wasm" "$parts" --out-name evenkeel
# The other parts share the memory and the table of this one, so their names stay.
wasm-bindgen --target web --no-typescript --keep-lld-exports --out-dir "$parts" "$parts/evenkeel.wasm"
node .dev/trim.mjs exports "$parts"
shrink "$parts/evenkeel_bg.wasm" "$parts"/split_*.wasm "$parts"/chunk_*.wasm
node .dev/trim.mjs names "$parts"
node .dev/page.mjs host "$parts" dist
wait $file
cp "$whole/lesson-file.html" dist/
