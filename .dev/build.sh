#!/usr/bin/env bash
# Builds the page for hosting into dist/, and the lesson's file beside it, installing what that takes.
. "$(dirname "$0")/base.sh"
need_node
.dev/rust.sh
.dev/tools.sh wasm-bindgen wasm-split
.dev/npm.sh .dev
say "building the page"
. .dev/hosted.sh

# The hosted program, whose relocations wasm-split reads, and the whole one of the lesson's file.
# All but this crate is compiled once for both, and both have their own place in cargo's cache.
parts=$CARGO_TARGET_DIR/parts
whole=$CARGO_TARGET_DIR/whole
rm -rf "$parts" "$whole"
mkdir -p "$parts" "$whole"
program "$parts/linked.wasm" evenkeel --features later -- -Clink-args=--emit-relocs
program "$whole/evenkeel.wasm" evenkeel --no-default-features --features web

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
