#!/usr/bin/env bash
# Builds the page for hosting into dist/, installing what that takes.
. "$(dirname "$0")/base.sh"
need_node
.dev/rust.sh
.dev/trunk.sh
say "building the page"
cargo fetch --locked --quiet --target wasm32-unknown-unknown
exec_trunk build --locked
