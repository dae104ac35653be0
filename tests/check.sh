#!/usr/bin/env bash
# Every check there is, cheapest first; the first that fails ends the run. `make test` runs this.
. "$(dirname "$0")/../.dev/base.sh"
passed=0
step() {
    local title=$1 start=$SECONDS
    shift
    printf '\n━━ %s\n' "$title"
    if "$@"; then
        passed=$((passed + 1))
        printf '━━ ok, %d s\n' $((SECONDS - start))
    else
        printf '\n✗ failed: %s\n%d passed, 1 failed\n' "$title" "$passed" >&2
        exit 1
    fi
}
# The policy that Trunk sends while developing must be the one that the page itself carries.
same_policy() {
    local policy
    policy=$(sed -n 's/^"Content-Security-Policy" = "\(.*\)"$/\1/p' Trunk.toml)
    [ -n "$policy" ] && grep -qF "content=\"$policy\"" index.html ||
        { echo "The Content-Security-Policy in Trunk.toml is not the one in index.html." && false; }
}

need_node
need python3 "install Python 3.9 or newer"
need git "install git"
.dev/rust.sh

step "one security policy" same_policy
step "the table of the benchmark" node --test --test-reporter=spec tests/bench/table.test.mjs
step "formatting" cargo fmt --check
step "clippy, pure code" cargo clippy --locked --no-default-features --features digest,timed --all-targets -- -D warnings
python=$(.dev/python.sh)
.dev/course.sh
# The checks against figures from outside run apart, for what they print is to be read: source,
# largest deviation, rows known to disagree. What one call leaves out is what the other runs.
outside=(tables:: constants:: textbook:: reference::)
step "tests: pure code, documentation" \
    cargo test --locked --no-default-features -- "${outside[@]/#/--skip=}"
step "tests: published tables, textbook, reference library" \
    env EVENKEEL_PYTHON="$python" cargo test --locked --no-default-features --lib --test it -- \
    --show-output "${outside[@]}"
step "the reference solver against closed forms and the same tables" \
    env PYTHONDONTWRITEBYTECODE=1 PYTHONWARNINGS=ignore \
    "$python" -m unittest discover --buffer --start-directory tests/reference
step "fuzzing, formatting" cargo fmt --check --manifest-path tests/fuzz/Cargo.toml
step "fuzzing, a fixed number of runs" .dev/fuzz.sh --bounded
step "clippy, everything" cargo clippy --locked --all-targets -- -D warnings
step "clippy, wasm" cargo clippy --locked --features later --target wasm32-unknown-unknown -- -D warnings
step "documentation" env RUSTDOCFLAGS="-D warnings" cargo doc --locked --no-deps
step "release build" .dev/build.sh
step "size budget" node .dev/size.mjs dist
step "dependencies: licences, sources, advisories" .dev/deny.sh
step "a second build: the same bytes" .dev/reproduce.sh
step "the core for a browser's comparison" cargo build --locked --quiet --release \
    --no-default-features --features digest --target wasm32-unknown-unknown --bin digest
step "course packages for a browser to open" cargo build --locked --quiet --no-default-features --example package
.dev/npm.sh tests/browser
browser=$(.dev/browser.sh)
step "browser: $("$browser" --version 2>/dev/null)" \
    env EVENKEEL_BROWSER="$browser" EVENKEEL_PYTHON="$python" node tests/browser/run.mjs
step "browser: Chromium, by touch" env EVENKEEL_BROWSER="$browser" node tests/browser/engines/run.mjs chromium
engines=$(.dev/engines.sh)
{ read -r firefox && read -r webkit; } <<<"$engines"
step "browser: Firefox" env EVENKEEL_FIREFOX="$firefox" node tests/browser/engines/run.mjs firefox
step "browser: WebKitGTK" env EVENKEEL_WEBKIT_DRIVER="$webkit" node tests/browser/engines/run.mjs webkit

printf '\n%d passed, 0 failed\n' "$passed"
