#!/usr/bin/env bash
# Makes sure of the pinned Rust toolchain, its wasm target and a linker.
. "$(dirname "$0")/base.sh"
need rustup "install it as rustup.rs says, then run this again"
need cargo "it comes with rustup: put ~/.cargo/bin on PATH, then run this again"
command -v cc >/dev/null || .dev/apt.sh "Rust needs a linker" gcc libc6-dev

channel=$(sed -n 's/^channel = "\(.*\)"/\1/p' rust-toolchain.toml)
if ! rustup run "$channel" rustc --version >/dev/null 2>&1; then
    say "installing Rust $channel (about a minute, once)"
    rustup toolchain install "$channel" --profile minimal --no-self-update
fi
installed=$(rustup component list --toolchain "$channel" --installed)
for component in rustfmt clippy rust-src; do
    grep -q "^$component" <<<"$installed" || {
        say "installing $component for Rust $channel (once)"
        rustup component add "$component" --toolchain "$channel"
    }
done
grep -q '^rust-std-wasm32-unknown-unknown' <<<"$installed" || {
    say "installing the wasm32-unknown-unknown target for Rust $channel (once)"
    rustup target add wasm32-unknown-unknown --toolchain "$channel"
}
