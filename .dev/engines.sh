#!/usr/bin/env bash
# Prints the paths of a Firefox and of WebKitGTK's driver that start, one a line, after installing
# what of them is missing.
. "$(dirname "$0")/base.sh"
find_firefox() {
    local name
    for name in firefox-esr firefox; do
        # Only one that answers counts: some systems ship a stand-in that asks to install another.
        if "$name" --version >/dev/null 2>&1; then
            command -v "$name"
            return
        fi
    done
    return 1
}
# WebKitGTK draws on a screen; xvfb-run, which needs xauth, gives it one that nobody sees.
missing=()
find_firefox >/dev/null || missing+=(firefox-esr)
command -v WebKitWebDriver >/dev/null || missing+=(webkit2gtk-driver)
command -v xvfb-run >/dev/null || missing+=(xvfb)
command -v xauth >/dev/null || missing+=(xauth)
[ ${#missing[@]} = 0 ] || .dev/apt.sh "The browser tests need Firefox and WebKitGTK" "${missing[@]}" >&2
find_firefox || stop "Firefox is installed but does not start: try 'firefox-esr --version'"
WebKitWebDriver --version >/dev/null 2>&1 ||
    stop "WebKitGTK's driver is installed but does not start: try 'WebKitWebDriver --version'"
command -v WebKitWebDriver
