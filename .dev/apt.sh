#!/usr/bin/env bash
# apt.sh REASON PACKAGE…: installs Debian packages, or says which ones to install.
. "$(dirname "$0")/base.sh"
reason=$1
shift
by_hand="$reason. Please install: $*"
command -v apt-get >/dev/null || stop "$by_hand (there is no apt-get here)"
if [ "$(id -u)" = 0 ]; then
    as_root=()
elif command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
    as_root=(sudo -n)
else
    stop "$by_hand (for example: sudo apt-get install $*)"
fi

say "$reason: installing $* with apt-get (about a minute, once)"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
apt() { "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -qq "$@" >>"$log" 2>&1 </dev/null; }
# A stale package list is worth trying: the install says what is wrong if it is.
apt update || say "apt-get update failed; trying with the package list at hand"
apt install -y --no-install-recommends "$@" || {
    cat "$log" >&2
    stop "$by_hand (apt-get could not, see above)"
}
