#!/usr/bin/env bash
# Prints the path of a Chromium that runs, after installing one if there is none.
. "$(dirname "$0")/base.sh"
find_browser() {
    local name
    for name in chromium chromium-browser google-chrome google-chrome-stable; do
        # Only one that answers counts: some systems ship a stand-in that asks to install another.
        if "$name" --version >/dev/null 2>&1; then
            command -v "$name"
            return
        fi
    done
    return 1
}
find_browser && exit
.dev/apt.sh "The browser tests need Chromium" chromium fonts-dejavu-core >&2
find_browser || stop "Chromium is installed but does not start: try 'chromium --version'"
