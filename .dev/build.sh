#!/usr/bin/env bash
# Builds the page for hosting into dist/, installing what that takes.
. "$(dirname "$0")/base.sh"
.dev/prepare.sh
say "building the page"

# The standard library is built along, for size and without panic messages: a fifth less to
# download on a bad network. That takes options of rustc that are not stable, hence the first
# line; the compiler is the pinned one. The folder is its own, so that `make serve` and this do
# not undo each other's work.
export RUSTC_BOOTSTRAP=1 CARGO_UNSTABLE_BUILD_STD=std,panic_abort
export CARGO_UNSTABLE_BUILD_STD_FEATURES=optimize_for_size
export RUSTFLAGS="-Zunstable-options -Cpanic=immediate-abort"
export CARGO_TARGET_DIR=$PWD/target/hosted
# Trunk itself works without the network: what the standard library is made of is fetched here.
cargo fetch --quiet --locked --target wasm32-unknown-unknown
exec_trunk build --release --locked
