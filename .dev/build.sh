#!/usr/bin/env bash
# Builds the page for hosting into dist/, installing what that takes.
. "$(dirname "$0")/base.sh"
.dev/prepare.sh
say "building the page"
exec_trunk build --locked
