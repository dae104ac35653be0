#!/usr/bin/env bash
# Makes ready what building the page takes: the toolchain, the crates, the tools.
. "$(dirname "$0")/base.sh"
need_node
.dev/rust.sh
host=$(rustc -vV | sed -n 's/^host: //p')
cargo fetch --quiet --target wasm32-unknown-unknown --target "$host"
.dev/tools.sh wasm-bindgen trunk
.dev/npm.sh .dev
