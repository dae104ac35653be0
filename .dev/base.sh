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
# Node.js lists the files of a folder and of those below it since 18.17 (.dev/size.mjs does).
need_node() {
    local wanted="install Node.js 18.17 or newer" version major minor
    need node "$wanted"
    need npm "install npm, which usually comes with Node.js"
    version=$(node --version) || stop "node does not run: $wanted"
    IFS=. read -r major minor _ <<<"${version#v}"
    ((major > 18 || (major == 18 && minor >= 17))) || stop "node is $version: $wanted"
}

# one_at_a_time: waits while another run of these scripts installs into the project. It holds until
# the script that calls it ends; a script called by that one must not ask again. It speaks on
# standard error, because some callers' output is the path that they print.
one_at_a_time() {
    mkdir -p "$tools"
    command -v flock >/dev/null || return 0
    exec 9>"$tools/lock"
    flock -n 9 || {
        say "waiting for another install in this folder to end" >&2
        flock 9
    }
}
