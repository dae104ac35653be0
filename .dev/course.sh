#!/usr/bin/env bash
# Makes sure of what the checks of course packages read them with, beside Python: unzip and Java.
. "$(dirname "$0")/base.sh"
# The compiler is there from Java 11 on to launch a program from its source: Debian's runtime has it,
# without the development kit.
launches() { java --list-modules 2>/dev/null | grep -q '^jdk\.compiler'; }
missing=()
command -v unzip >/dev/null || missing+=(unzip)
launches || missing+=(default-jre-headless)
[ ${#missing[@]} = 0 ] || .dev/apt.sh "The checks of course packages need unzip and Java" "${missing[@]}"
launches ||
    stop "this Java cannot launch a program from its source: install one of version 11 or newer with its compiler"
