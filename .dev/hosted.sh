# Sourced after base.sh: how Rust is compiled and made small for a page that is hosted, the same
# for the page (build.sh) and for what `make bench` measures beside it.

# The standard library is built along, for size and without panic messages: a fifth less to
# download on a bad network. That takes options of rustc that are not stable, hence the first
# line; the compiler is the pinned one. The folder is its own, so that `make serve` and this do
# not undo each other's work.
export RUSTC_BOOTSTRAP=1 CARGO_UNSTABLE_BUILD_STD=std,panic_abort
export CARGO_UNSTABLE_BUILD_STD_FEATURES=optimize_for_size
export RUSTFLAGS="-Zunstable-options -Cpanic=immediate-abort"
export CARGO_TARGET_DIR=$PWD/target/hosted

# program FILE NAME OPTION…: compiles the program of that name to FILE.
program() {
    cargo rustc --quiet --locked --release --target wasm32-unknown-unknown --bin "$2" "${@:3}"
    cp "$CARGO_TARGET_DIR/wasm32-unknown-unknown/release/$2.wasm" "$1"
}

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
