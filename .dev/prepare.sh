#!/usr/bin/env bash
# Makes ready what building the page takes: the toolchain, the tools, the crates.
. "$(dirname "$0")/base.sh"
need_node
.dev/rust.sh
host=$(rustc -vV | sed -n 's/^host: //p')
cargo fetch --quiet --target wasm32-unknown-unknown --target "$host"
# The first time, the page's crates are compiled beside the tools, which often leave a core idle.
# Trunk finds them done, or does the same again and shows what was wrong.
if [ ! -x "$tools/bin/wasm-bindgen" ]; then
    cargo build --quiet --release --target wasm32-unknown-unknown --bin evenkeel >/dev/null 2>&1 &
    trap 'kill $! 2>/dev/null || true' EXIT
fi
.dev/trunk.sh
wait
