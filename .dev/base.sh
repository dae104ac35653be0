# Sourced by every script: the project's folder, its own tools first on PATH, how to speak and stop.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
tools=$PWD/.tools
export PATH="$tools/bin:$PWD/.dev/node_modules/.bin:$PATH"
unset NO_COLOR         # Trunk takes its value for a flag of its own and refuses to start.
unset RUSTUP_TOOLCHAIN # It would win over rust-toolchain.toml.

say() { printf '• %s\n' "$*"; }
stop() {
    printf '✗ %s\n' "$*" >&2
    exit 1
}

# need COMMAND HOW: stops with HOW to get the command if it is missing.
need() { command -v "$1" >/dev/null || stop "$1 is missing: $2"; }
need_node() {
    need node "install Node.js 18 or newer"
    need npm "install npm, which usually comes with Node.js"
    local version
    version=$(node --version) || stop "node does not run: install Node.js 18 or newer"
    version=${version#v}
    [ "${version%%.*}" -ge 18 ] || stop "node is $version: install Node.js 18 or newer"
}

# one_at_a_time: waits while another run of these scripts installs into the project.
one_at_a_time() {
    mkdir -p "$tools"
    command -v flock >/dev/null || return 0
    exec 9>"$tools/lock"
    flock -n 9 || {
        say "waiting for another install in this folder to end"
        flock 9
    }
}

# exec_trunk COMMAND OPTION…: becomes a release build by Trunk. Its own minifier cannot read
# wasm-bindgen's module and says so; a hook minifies that file instead.
exec_trunk() {
    exec trunk --log warn "$@" --release > >(grep --line-buffered -v 'Failed to minify JS')
}
