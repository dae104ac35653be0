#!/usr/bin/env bash
# python.sh [REQUIREMENTS FOLDER]: prints the path of a Python that has the packages listed in
# REQUIREMENTS, in a virtual environment of our own in FOLDER; without them, those of the checks: the
# reference library and a reader of PDF.
. "$(dirname "$0")/base.sh"
need python3 "install Python 3.9 or newer"
wanted=${1:-tests/reference/requirements.txt}
venv=${2:-$tools/venv}
one_at_a_time
# The copy of the requirements is written last, so it marks an install that ended well.
if ! cmp -s "$wanted" "$venv/installed.txt" || ! "$venv/bin/python" -c '' 2>/dev/null; then
    rm -rf "$venv"
    say "installing $(grep -v '^#' "$wanted" | paste -sd' ') for Python (seconds, once)" >&2
    python3 -c 'import ensurepip' 2>/dev/null ||
        .dev/apt.sh "Python needs its venv module" python3-venv >&2
    python3 -m venv "$venv" >&2
    "$venv/bin/python" -m pip install --quiet --requirement "$wanted" >&2 ||
        stop "the Python packages in $wanted could not be installed, see above"
    cp "$wanted" "$venv/installed.txt"
fi
echo "$venv/bin/python"
