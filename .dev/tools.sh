#!/usr/bin/env bash
# tools.sh TOOL…: installs wasm-bindgen, wasm-split, trunk or deny inside the project, in the
# versions that are pinned.
. "$(dirname "$0")/base.sh"
pin() { sed -n "s/^$1 = \"[=a-z_]*\(.*\)\"/\1/p" Trunk.toml; }
trunk=$(pin trunk-version)
bindgen=$(pin wasm_bindgen)
split=0.2.3 # Reads what the wasm_split_helpers of Cargo.lock writes.
deny=0.20.2

# A wasm-bindgen tool of another version than the library's writes glue that does not fit.
locked=$(sed -n '/^name = "wasm-bindgen"$/{n;s/version = "\(.*\)"/\1/p}' Cargo.lock)
[ "$bindgen" = "$locked" ] ||
    stop "Trunk.toml pins wasm-bindgen $bindgen, Cargo.lock has ${locked:-none}: make the two equal"

# install COMMAND CRATE VERSION TIME OPTION…: cargo puts a tool in place only once it is whole,
# and the build folder is kept until both are, so an interrupted install goes on where it stopped.
# Debug builds: they are ready in a third of the time, and fast enough for a page of this size.
# Nobody debugs them, so they go without debug information, unwinding and run-time checks, which
# are code to generate and to link in every crate; a tool that panics still ends with its message.
install() {
    local command=$1 crate=$2 version=$3 time=$4
    shift 4
    [ -x "$tools/bin/$command" ] && grep -q "^\"$crate $version " "$tools/.crates.toml" && return
    say "installing $crate $version (about $time, once)"
    CARGO_PROFILE_DEV_DEBUG=0 CARGO_PROFILE_DEV_PANIC=abort \
        CARGO_PROFILE_DEV_DEBUG_ASSERTIONS=false CARGO_PROFILE_DEV_OVERFLOW_CHECKS=false \
        CARGO_INCREMENTAL=0 CARGO_RESOLVER_INCOMPATIBLE_RUST_VERSIONS=fallback \
        cargo install "$crate" --version "$version" --debug --no-default-features --force --quiet \
        --root "$tools" --target-dir "$tools/build" "$@" ||
        stop "$crate $version could not be installed, see above"
}
one_at_a_time
for tool in "$@"; do
    case $tool in
    # Without --locked: the crate's own lock file names a release that its registry no longer has.
    wasm-bindgen) install wasm-bindgen wasm-bindgen-cli "$bindgen" "1 minute" --bin wasm-bindgen ;;
    wasm-split) install wasm-split-cli wasm_split_cli_support "$split" "half a minute" --locked --features build-binary ;;
    trunk) install trunk trunk "$trunk" "2 minutes" --locked ;;
    deny) install cargo-deny cargo-deny "$deny" "1 minute" --locked ;;
    *) stop "no such tool: $tool" ;;
    esac
done
rm -rf "$tools/build"
