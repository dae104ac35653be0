#!/usr/bin/env bash
# Prints the path of a Firefox that runs and that of WebKitGTK's driver, one a line, after installing
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
missing=()
find_firefox >/dev/null || missing+=(firefox-esr)
command -v WebKitWebDriver >/dev/null || missing+=(webkit2gtk-driver)
# WebKitGTK's browser needs a screen to draw on; this is one that nobody sees.
command -v Xvfb >/dev/null || missing+=(xvfb)
[ ${#missing[@]} = 0 ] || .dev/apt.sh "The browser tests need Firefox and WebKitGTK" "${missing[@]}" >&2
find_firefox || stop "Firefox is installed but does not start: try 'firefox-esr --version'"
command -v WebKitWebDriver || stop "WebKitGTK is installed, but its WebKitWebDriver is not on PATH"
