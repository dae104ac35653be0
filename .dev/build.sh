#!/usr/bin/env bash
# Builds the page for hosting into dist/, installing what that takes.
. "$(dirname "$0")/base.sh"
need_node
.dev/rust.sh
.dev/tools.sh wasm-bindgen wasm-split
.dev/npm.sh .dev
say "building the page"

# The standard library is built along, for size and without panic messages: a fifth less to
# download on a bad network. That takes options of rustc that are not stable, hence the first
# line; the compiler is the pinned one. The folder is its own, so that `make serve` and this do
# not undo each other's work. The relocations are for wasm-split.
export RUSTC_BOOTSTRAP=1 CARGO_UNSTABLE_BUILD_STD=std,panic_abort
export CARGO_UNSTABLE_BUILD_STD_FEATURES=optimize_for_size
export RUSTFLAGS="-Zunstable-options -Cpanic=immediate-abort -Clink-args=--emit-relocs"
export CARGO_TARGET_DIR=$PWD/target/hosted
cargo build --quiet --locked --release --features later --target wasm32-unknown-unknown --bin evenkeel

# What only the panels of the lesson need leaves the program before wasm-bindgen reads the rest.
parts=$CARGO_TARGET_DIR/parts
rm -rf "$parts"
mkdir -p "$parts/small"
wasm-split-cli "$CARGO_TARGET_DIR/wasm32-unknown-unknown/release/evenkeel.wasm" "$parts" --out-name evenkeel
# The other part shares the memory and the table of this one, so their names stay.
wasm-bindgen --target web --no-typescript --keep-lld-exports --out-dir "$parts" "$parts/evenkeel.wasm"
features=(bulk-memory sign-ext nontrapping-float-to-int mutable-globals reference-types multivalue)
for part in evenkeel_bg.wasm split_lesson.wasm; do
    wasm-opt "$parts/$part" -Oz "${features[@]/#/--enable-}" --output "$parts/small/$part"
    mv "$parts/small/$part" "$parts/$part"
done
node .dev/page.mjs host "$parts" dist
